import type { StatisticsDocument } from '#contract/alerts.ts'
import type { Alert } from '#domain/alerts/alert.ts'
import { alertStatistics, type CountedAlert } from '#domain/alerts/alert-statistics.ts'
import { subjectOf } from '#domain/alerts/alert-subject.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import type { SiteModel } from '#domain/site/site.ts'

/** `GET /api/sites/:site/alerts/statistics`: of all that was ever raised, drills left out. */
export function statisticsDocument(
  model: SiteModel,
  alerts: readonly Alert[],
  asOfEpochMs: number,
): StatisticsDocument {
  const counted = alerts.flatMap((alert): readonly CountedAlert[] => {
    const { cause, closed, verified, acknowledged, raisedAtEpochMs } = alert
    if (cause.kind === 'drill') return []
    const { instrument } = subjectOf(alert, model, raisedAtEpochMs)
    return [
      {
        level: watchedBy(cause.level) === 'silence' ? null : cause.level.id,
        instrument: instrument ?? cause.level.series,
        raisedAtEpochMs,
        finding: closed && verified ? verified.finding : null,
        acknowledgedAfterMs: acknowledged && Math.max(0, acknowledged.atEpochMs - raisedAtEpochMs),
      },
    ]
  })
  return { site: model.facts.id, asOfEpochMs, statistics: alertStatistics(counted, model.facts.timeZone) }
}

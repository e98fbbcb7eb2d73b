import type { StatisticsDocument } from '#contract/alerts.ts'
import type { Alert } from '#domain/alerts/alert.ts'
import { alertStatistics, countedAlerts } from '#domain/alerts/alert-statistics.ts'
import type { SiteModel } from '#domain/site/site.ts'

/** `GET /api/sites/:site/alerts/statistics`. Of an invented site, where nobody is told of anything, all is counted. */
export function statisticsDocument(
  model: SiteModel,
  alerts: readonly Alert[],
  asOfEpochMs: number,
): StatisticsDocument {
  const { id: site, invented, timeZone } = model.facts
  const told = invented ? alerts.map((alert) => ({ ...alert, untoldBecause: null })) : alerts
  return { site, asOfEpochMs, statistics: alertStatistics(countedAlerts(told, model), timeZone) }
}

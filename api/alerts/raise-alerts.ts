import { type Alert, isStillReached } from '#domain/alerts/alert.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { type NewHappening, reconcileEpisodes } from '#domain/alerts/reconcile-episodes.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { NewAlertEvent } from '../store/store.ts'
import { judgeArrival } from './judge-arrival.ts'

export interface LevelNow {
  readonly level: TriggerLevel
  readonly episodes: readonly Episode[]
  /** The alerts that it ever raised, by number. */
  readonly alerts: readonly Alert[]
  readonly lateAfterMinutes: number
}

/**
 * What is to be recorded so that alerts stand as episodes now do. What is raised without telling anyone stands at the
 * instant at which it could have been known, so that a list of the past reads as it would have been; all else at the present.
 */
export function eventsToRecord(
  model: Pick<SiteModel, 'facts'>,
  levels: readonly LevelNow[],
  presentEpochMs: number,
): readonly NewAlertEvent[] {
  const events = levels.flatMap(({ level, episodes, alerts, lateAfterMinutes }) => {
    if (alerts.length === 0 && episodes.every(({ heldAtEpochMs }) => heldAtEpochMs === null)) return []
    const judge = {
      ofSilence: watchedBy(level) === 'silence',
      lateAfterMinutes,
      invented: model.facts.invented,
      presentEpochMs,
    }
    return reconcileEpisodes({
      level,
      episodes,
      alerts,
      judgeArrival: (episode) => judgeArrival(episode, judge),
    }).map((one) => eventAt(one, presentEpochMs))
  })
  const isRaised = ({ alert }: NewAlertEvent) => alert === null
  const raised = events.filter(isRaised).toSorted((one, other) => one.atEpochMs - other.atEpochMs)
  return [...events.filter((event) => !isRaised(event)), ...raised]
}

/** A level that is no longer among the records is not reached any more; what it raised stays, and ends. */
export function eventsOfWithdrawn(
  alerts: Iterable<Alert>,
  levels: ReadonlyMap<string, TriggerLevel>,
  presentEpochMs: number,
): readonly NewAlertEvent[] {
  return [...alerts].flatMap((alert) => {
    const { cause, episode } = alert
    if (cause.kind !== 'level' || levels.has(cause.level.id) || !episode || !isStillReached(alert)) return []
    const ended = { ...episode, leftAtEpochMs: presentEpochMs, leftBecause: 'level-ended' } as const
    return [
      {
        alert: alert.alert,
        atEpochMs: presentEpochMs,
        by: null,
        happening: { kind: 'extent-changed', episode: ended },
      },
    ]
  })
}

function eventAt({ alert, happening }: NewHappening, presentEpochMs: number): NewAlertEvent {
  const knowable =
    happening.kind === 'raised' && happening.cause.kind === 'level' && happening.untoldBecause !== null
      ? happening.cause.episode.knownAtEpochMs
      : presentEpochMs
  return { alert, atEpochMs: Math.min(presentEpochMs, knowable), by: null, happening }
}

import type { TriggerLevel } from '../site/tables.ts'
import { type Alert, isStillReached } from './alert.ts'
import type { AlertHappening } from './alert-event.ts'
import type { Episode } from './episode.ts'

/** What is to be recorded: an alert to be raised (no number yet), or something that happened to one. */
export interface NewHappening {
  readonly alert: number | null
  readonly happening: AlertHappening
}

export interface Reconciling {
  readonly level: TriggerLevel
  /** The episodes of the level as all readings that are here now make them, in order of time. */
  readonly episodes: readonly Episode[]
  /** The alerts that this level ever raised, by number. */
  readonly alerts: readonly Alert[]
  /** Whether and why nobody is told of an episode that is raised now, and whether it counts as late. */
  readonly judgeArrival: (episode: Episode) => {
    readonly late: boolean
    readonly untoldBecause: string | null
  }
}

/**
 * Brings the alerts of a level in line with its episodes. An episode that held belongs to the oldest alert that it
 * overlaps, and to no other; without one it is raised. What was raised and is no longer borne out is said to be so and
 * stays. So whatever the order in which readings came, the alerts that are borne out are the episodes that held. Where
 * nobody is waited for any more, closed or never told, and the level turns out to be reached after all, it is opened again.
 */
export function reconcileEpisodes({
  level,
  episodes,
  alerts,
  judgeArrival,
}: Reconciling): readonly NewHappening[] {
  const held = episodes.filter(({ heldAtEpochMs }) => heldAtEpochMs !== null)
  const owner = ownersOf(held, alerts)
  const owned = new Map([...owner].map(([episode, alert]) => [alert.alert, episode]))
  const ofAlerts = alerts.flatMap((alert): readonly NewHappening[] => {
    const episode = owned.get(alert.alert)
    if (!episode) return alert.bornOut ? [{ alert: alert.alert, happening: { kind: 'not-borne-out' } }] : []
    const happenings: AlertHappening[] = [
      ...(!alert.bornOut
        ? [{ kind: 'borne-out-again', episode } as const]
        : isSame(episode, alert.episode)
          ? []
          : [{ kind: 'extent-changed', episode } as const]),
      ...(isReachedUnheard(alert, episode, judgeArrival) ? [openedByReadings] : []),
    ]
    return happenings.map((happening) => ({ alert: alert.alert, happening }))
  })
  const fresh = held
    .filter((episode) => !owner.has(episode))
    .map((episode): NewHappening => {
      const cause = { kind: 'level', level, episode } as const
      return { alert: null, happening: { kind: 'raised', cause, ...judgeArrival(episode) } }
    })
  return [...ofAlerts, ...fresh]
}

const openedByReadings = {
  kind: 'reopened',
  reason: 'By readings or records that came later the level is still reached.',
} as const

/** Whether readings say that a level is reached of which they last said that it was not, and nobody is waited for. */
function isReachedUnheard(
  alert: Alert,
  episode: Episode,
  judgeArrival: Reconciling['judgeArrival'],
): boolean {
  if (episode.leftAtEpochMs !== null || isStillReached(alert)) return false
  return (
    alert.closed !== null || (alert.untoldBecause !== null && judgeArrival(episode).untoldBecause === null)
  )
}

function ownersOf(held: readonly Episode[], alerts: readonly Alert[]): ReadonlyMap<Episode, Alert> {
  const owner = new Map<Episode, Alert>()
  const free = new Set(alerts)
  const give = (fits: (episode: Episode, alert: Alert) => boolean) => {
    for (const alert of alerts) {
      if (!free.has(alert)) continue
      const episode = held.find((one) => !owner.has(one) && fits(one, alert))
      if (!episode) continue
      owner.set(episode, alert)
      free.delete(alert)
    }
  }
  // The very same first, so that one which has grown takes no other's alert.
  give((episode, { episode: known }) => known?.crossedAtEpochMs === episode.crossedAtEpochMs)
  give((episode, { episode: known }) => known !== null && overlap(episode, known))
  return owner
}

const overlap = (one: Episode, other: Episode): boolean =>
  one.crossedAtEpochMs <= (other.leftAtEpochMs ?? Number.POSITIVE_INFINITY) &&
  other.crossedAtEpochMs <= (one.leftAtEpochMs ?? Number.POSITIVE_INFINITY)

/** Peaks are left out: one that grows with every reading would be an event with every reading. */
function isSame(one: Episode, other: Episode | null): boolean {
  return (
    other !== null &&
    one.crossedAtEpochMs === other.crossedAtEpochMs &&
    one.heldAtEpochMs === other.heldAtEpochMs &&
    one.leftAtEpochMs === other.leftAtEpochMs &&
    one.leftBecause === other.leftBecause
  )
}

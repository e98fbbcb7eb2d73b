import type { Alert } from '#domain/alerts/alert.ts'
import { pointOf } from '#domain/alerts/alert-subject.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { sayInstant } from '#domain/alerts/say-instant.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { levelOf, nameOf } from './alert-headline.ts'
import { sayLevel } from './level-words.ts'
import type { MessageSite, ToldAlert } from './message-words.ts'

/** Where, which level, since when, and what is to be done; none for a drill. */
export function levelLines(told: ToldAlert, site: MessageSite): readonly string[] {
  const { alert, series, lowerOpen } = told
  if (alert.cause.kind !== 'level' || !alert.episode) return []
  const { level } = alert.cause
  const { episode } = alert
  return [
    `Where: ${pointOf(level.series)}, ${site.facts.name}`,
    `Level: ${nameOf(site, level.level)}, ${sayLevel(level, series, (at) => sayInstant(at, site.facts.timeZone))} (${level.id})`,
    ...timeLines(alert, episode, site.facts.timeZone),
    ...(alert.bornOut
      ? []
      : ['With readings that came later the level was not reached as it seemed. Look at them first.']),
    ...lowerOpen.map(
      (lower) =>
        `Higher than before: alert ${lower.alert} of the same series, ${nameOf(site, levelOf(lower))}, is still open.`,
    ),
    ...instructionLines(level),
  ]
}

function timeLines(alert: Alert, episode: Episode, zone: string): readonly string[] {
  const at = (instant: number) => sayInstant(instant, zone)
  return [
    `Reached: ${at(episode.crossedAtEpochMs)}${
      episode.heldAtEpochMs !== null && episode.heldAtEpochMs !== episode.crossedAtEpochMs
        ? `, and still at ${at(episode.heldAtEpochMs)}`
        : ''
    }`,
    `Received: ${at(episode.knownAtEpochMs)}`,
    ...(alert.late ? ['These readings arrived late: it was so before anybody could be told.'] : []),
    ...(episode.leftAtEpochMs === null
      ? []
      : [`By its last readings the level was left again at ${at(episode.leftAtEpochMs)}.`]),
    `Raised: ${at(alert.raisedAtEpochMs)}${
      alert.openedAtEpochMs === alert.raisedAtEpochMs ? '' : `, opened again ${at(alert.openedAtEpochMs)}`
    }`,
  ]
}

const instructionLines = ({ action, owner, withinMinutes }: TriggerLevel): readonly string[] => [
  `Do: ${action}`,
  `Who: ${owner}, within ${withinMinutes} minutes`,
]

import type { AlertsDocument } from '#contract/alerts.ts'
import type { AlertsStanding } from '../../derived/alerts/alerts-standing.ts'
import type { WatchedChannels } from '../../derived/alerts/watched-channels.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { evaluationSentence, unknownSentence } from './channel-sentences.ts'

/** What the banner is made of. */
export interface NotKnown {
  readonly standing: AlertsStanding
  readonly document: AlertsDocument | null
  /** By the site's clock. */
  readonly evaluation: AlertsDocument['evaluation'] | null
  readonly channels: WatchedChannels | null
  readonly nowEpochMs: number
  readonly timeZone: string
  /** False where the site's present stands still: drills go on by the clock on the wall, months away from it. */
  readonly drillGoesByClock: boolean
}

/** What cannot be known or told now, in one line, reasons left to the list, what weighs most first; null: nothing of the kind. */
export function bannerSentence({
  standing,
  document,
  evaluation,
  channels,
  nowEpochMs,
  timeZone,
  drillGoesByClock,
}: NotKnown): string | null {
  if (standing.kind === 'unknown') return standing.sentence
  const parts = [
    standing.kind === 'last-known' ? standing.sentence : null,
    evaluation && evaluationSentence(evaluation, nowEpochMs, timeZone, { withReason: false }),
    document && unreachableSentence(document.alerts, timeZone),
    channels && unknownSentence(channels, timeZone),
    document && shortNobodyOn(document.telling),
    document && (drillGoesByClock ? drillSentence(document.drill, timeZone) : null),
  ].filter((part) => part !== null)
  return parts.length === 0 ? null : parts.join(' ')
}

function unreachableSentence(alerts: AlertsDocument['alerts'], timeZone: string): string | null {
  const unreachable = alerts.filter(
    ({ closed, unreachableSinceEpochMs }) => !closed && unreachableSinceEpochMs !== null,
  )
  if (unreachable.length === 0) return null
  const since = Math.min(
    ...unreachable.map(({ unreachableSinceEpochMs }) => unreachableSinceEpochMs ?? Infinity),
  )
  const which = unreachable.length === 1 ? `alert ${unreachable[0]?.alert}` : `${unreachable.length} alerts`
  return `Nobody could be reached about ${which} since ${formatShortInstant(since, timeZone)}.`
}

/** Why nobody would be told of an alert; null: somebody would. */
export function tellingSentence({ ways, nobodyOn }: AlertsDocument['telling']): string | null {
  const parts = [
    ways.length === 0 ? 'No way of telling people is set up: alerts are told on this page alone.' : null,
    nobodyOnSentence({ nobodyOn }),
  ].filter((part) => part !== null)
  return parts.length === 0 ? null : parts.join(' ')
}

/** Which duties nobody is on for now; null: somebody is on for each that a level needs. */
export const nobodyOnSentence = ({ nobodyOn }: Pick<AlertsDocument['telling'], 'nobodyOn'>): string | null =>
  nobodyOn.length === 0 ? null : `Nobody is on duty for ${nobodyOn.join(', ')}.`

const shortNobodyOn = ({ nobodyOn }: Pick<AlertsDocument['telling'], 'nobodyOn'>): string | null =>
  nobodyOn.length > 1
    ? `Nobody is on duty for ${nobodyOn.length} of the duties that levels name.`
    : nobodyOnSentence({ nobodyOn })

/** That the last drill due was not held; null: it was, or none is planned. */
function drillSentence(drill: AlertsDocument['drill'], timeZone: string): string | null {
  return drill === null || drill.heldEpochMs !== null
    ? null
    : `Drill for ${drill.duty} overdue since ${formatShortInstant(drill.dueEpochMs, timeZone)}.`
}

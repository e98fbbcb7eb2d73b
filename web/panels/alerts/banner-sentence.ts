import type { AlertsDocument } from '#contract/alerts.ts'
import type { AlertsStanding } from '../../derived/alerts/alerts-standing.ts'
import type { WatchedChannels } from '../../derived/alerts/watched-channels.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { evaluationSentence, unknownSentence } from './channel-sentences.ts'

/** What the banner is made of; `overdueDrills`: duties whose chain was not tested in time. */
export interface NotKnown {
  readonly standing: AlertsStanding
  readonly document: AlertsDocument | null
  readonly channels: WatchedChannels | null
  readonly overdueDrills: readonly string[]
  readonly nowEpochMs: number
  readonly timeZone: string
}

/** What cannot be known or told now, in one line, what weighs most first; null: nothing of the kind. */
export function bannerSentence({
  standing,
  document,
  channels,
  overdueDrills,
  nowEpochMs,
  timeZone,
}: NotKnown): string | null {
  if (standing.kind === 'unknown') return standing.sentence
  const parts = [
    standing.kind === 'last-known' ? standing.sentence : null,
    document && evaluationSentence(document.evaluation, nowEpochMs, timeZone),
    document && unreachableSentence(document.alerts, timeZone),
    channels && unknownSentence(channels, timeZone),
    overdueDrills.length === 0 ? null : `Drill overdue for ${overdueDrills.join(', ')}.`,
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

import type { AlertCounts, AlertShare, AlertStatistics } from '#domain/alerts/alert-statistics.ts'
import { wilsonInterval } from '#domain/statistics/wilson-interval.ts'
import { formatAge, formatShortInstant } from '../../ui/format-instant.ts'

export const statisticsHeadings = [
  'Raised',
  'Closed',
  'Real',
  'Nuisance',
  'False',
  'Half acknowledged within',
  'Nine of ten within',
  'Not acknowledged',
] as const

/** Counts as cells of a table, findings with their share of those closed and its 95 % interval. */
export function countCells(counts: AlertCounts): readonly string[] {
  const { raised, closed, falseShare, nuisanceShare, unacknowledged } = counts
  return [
    String(raised),
    String(closed),
    shareText(movementShare(counts)),
    shareText(nuisanceShare),
    shareText(falseShare),
    lengthText(counts.medianToAcknowledgeMs),
    lengthText(counts.ninetiethToAcknowledgeMs),
    String(unacknowledged),
  ]
}

/** Whatever was closed and was neither false nor a nuisance. */
function movementShare({ closed, falseShare, nuisanceShare }: AlertCounts): AlertShare | null {
  if (falseShare === null || nuisanceShare === null) return null
  const count = closed - falseShare.count - nuisanceShare.count
  return { count, share: count / closed, ...wilsonInterval(count, closed) }
}

/** `3: 60 % (23 to 88 %)`. */
function shareText(share: AlertShare | null): string {
  if (share === null) return '–'
  const percent = (part: number) => String(Math.round(100 * part))
  return `${share.count}: ${percent(share.share)} % (${percent(share.low)} to ${percent(share.high)} %)`
}

const lengthText = (lengthMs: number | null): string => (lengthMs === null ? '–' : formatAge(lengthMs))

/** Readings that come in together raise together. */
const within = (lengthMs: number): string => (lengthMs < 60_000 ? 'at once' : `within ${formatAge(lengthMs)}`)

/** Runs of alerts so close that nobody can answer each; whole sentences. */
export function runSentences(
  { floods, chattering }: Pick<AlertStatistics, 'floods' | 'chattering'>,
  timeZone: string,
): readonly string[] {
  const from = (atEpochMs: number) => formatShortInstant(atEpochMs, timeZone)
  return [
    ...floods.map(
      ({ fromEpochMs, untilEpochMs, count }) =>
        `Flood: ${count} alerts ${within(untilEpochMs - fromEpochMs)}, ${from(fromEpochMs)}.`,
    ),
    ...chattering.map(
      ({ level, fromEpochMs, untilEpochMs, count }) =>
        `Chattering: ${level}, ${count} alerts ${within(untilEpochMs - fromEpochMs)}, ${from(fromEpochMs)}.`,
    ),
  ]
}

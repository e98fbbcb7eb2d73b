import type { LoggerLine } from '../../derived/network-condition.ts'
import { lastHeardOf } from '../../derived/network-condition.ts'

/** Columns by which loggers are put in order; `asked` is the order in which they ask for a person. */
export const loggerColumns = [
  'asked',
  'logger',
  'heard',
  'held',
  'delivered',
  'clock',
  'battery',
  'calibration',
  'walk',
] as const
export type LoggerColumn = (typeof loggerColumns)[number]

export interface LoggerOrder {
  readonly by: LoggerColumn
  readonly descending: boolean
}

/** The lines in an order; what is not known stands last either way, equals keep the order that they ask in. */
export function ordered(
  lines: readonly LoggerLine[],
  { by, descending }: LoggerOrder,
): readonly LoggerLine[] {
  if (by === 'asked') return descending ? lines.toReversed() : lines
  if (by === 'logger') {
    const sorted = lines.toSorted((one, other) =>
      one.facts.logger.localeCompare(other.facts.logger, 'en', { numeric: true }),
    )
    return descending ? sorted.toReversed() : sorted
  }
  const known = lines.filter((line) => keyOf(line, by) !== null)
  const unknown = lines.filter((line) => keyOf(line, by) === null)
  const sign = descending ? -1 : 1
  return [
    ...known.toSorted((one, other) => sign * ((keyOf(one, by) as number) - (keyOf(other, by) as number))),
    ...unknown,
  ]
}

function keyOf(line: LoggerLine, by: Exclude<LoggerColumn, 'asked' | 'logger'>): number | null {
  switch (by) {
    case 'heard':
      return lastHeardOf(line.facts)
    case 'held':
      return line.completeness.heldShare
    case 'delivered':
      return line.completeness.inTimeShare
    case 'clock':
      return line.drift.ok ? Math.abs(line.drift.value.gainSecondsPerDay) : null
    case 'battery':
      return daysOf(line)
    case 'calibration':
      return line.calibrationDueEpochMs
    case 'walk':
      return line.stop
  }
}

/** Cells below their limit first; those of which only a least is known after those with days. */
function daysOf({ battery }: LoggerLine): number | null {
  switch (battery?.left.kind) {
    case 'below-limit':
      return 0
    case 'days':
      return battery.left.days
    case 'further-than-seen':
      return 1e6
    default:
      return null
  }
}

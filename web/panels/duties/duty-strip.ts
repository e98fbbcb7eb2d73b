import type { DutyStanding } from '#contract/duties-document.ts'
import { fromLocalField, toLocalField } from '../../ui/format-instant.ts'

/** A stretch of the strip, as shares of its length from its start. */
export interface StripBlock {
  readonly startShare: number
  readonly lengthShare: number
  readonly name: string
}

export interface StripRow {
  readonly order: number
  readonly turns: readonly StripBlock[]
  /** Nobody of order 1 could be told; empty for other orders. */
  readonly holes: readonly StripBlock[]
}

/** The week of a duty, a row an order; turns and holes are cut to it. Order 1 has a row also where nobody has it. */
export function dutyStrip({ week, holes }: DutyStanding): readonly StripRow[] {
  const length = week.untilEpochMs - week.fromEpochMs
  const block = (fromEpochMs: number, untilEpochMs: number, name: string): readonly StripBlock[] => {
    const from = Math.max(fromEpochMs, week.fromEpochMs)
    const until = Math.min(untilEpochMs, week.untilEpochMs)
    return until > from
      ? [{ startShare: (from - week.fromEpochMs) / length, lengthShare: (until - from) / length, name }]
      : []
  }
  const orders = [...new Set([1, ...week.turns.map(({ order }) => order)])].sort((one, other) => one - other)
  return orders.map((order) => ({
    order,
    turns: week.turns
      .filter((turn) => turn.order === order)
      .flatMap((turn) => block(turn.fromEpochMs, turn.untilEpochMs, turn.name)),
    holes:
      order === 1
        ? holes.flatMap((hole) =>
            block(
              hole.fromEpochMs,
              hole.untilEpochMs,
              hole.because === 'nobody' ? 'nobody' : 'not reachable',
            ),
          )
        : [],
  }))
}

/** Midnights of site time within the week, each with its place and weekday. */
export function stripDays(
  { fromEpochMs, untilEpochMs }: DutyStanding['week'],
  timeZone: string,
): readonly { readonly startShare: number; readonly name: string }[] {
  const first = Date.parse(`${toLocalField(fromEpochMs, timeZone).slice(0, 10)}T00:00Z`)
  return Array.from({ length: 9 }, (_, day) => new Date(first + day * 86_400_000)).flatMap((date) => {
    const at = fromLocalField(date.toISOString().slice(0, 16), timeZone)
    if (at === null || at <= fromEpochMs || at >= untilEpochMs) return []
    const name = `${weekdays[date.getUTCDay()]} ${date.getUTCDate()}`
    return [{ startShare: (at - fromEpochMs) / (untilEpochMs - fromEpochMs), name }]
  })
}

const weekdays = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']

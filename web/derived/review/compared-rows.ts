import type { ComparedSeries } from '#domain/review/compare-series.ts'
import { unitSymbol } from '#domain/units.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { lagText, withInterval } from './interval-text.ts'

/** A series of a comparison as a line of its table. */
export interface ComparedRow {
  readonly series: string
  readonly name: string
  readonly what: string
  readonly read: number
  readonly change: string
  readonly rate: string
  readonly correlation: string
  readonly rank: string
  readonly lag: string
}

export const comparedRows = (compared: readonly ComparedSeries[]): readonly ComparedRow[] =>
  compared.map(({ trace, change, perDay, correlation, rank, lagHours }, place) => {
    const unit = unitSymbol(trace.unit)
    const beside = (text: string) => (place === 0 ? 'held against' : text)
    const intervalOf = (one: typeof correlation) =>
      one === null ? 'cannot be told' : withInterval(one.correlation, one.interval[0], one.interval[1])
    return {
      series: trace.series,
      name: trace.point,
      what: measureNames[trace.measure],
      read: trace.values.length,
      change:
        change === null
          ? 'too few readings'
          : `${withInterval(change.change, change.interval[0], change.interval[1])} ${unit}`,
      // By the week: rates by the day are mostly noughts.
      rate:
        perDay === null ? '–' : `${withInterval(7 * perDay.rate, 7 * perDay.low, 7 * perDay.high)} ${unit}`,
      correlation: beside(intervalOf(correlation)),
      rank: beside(intervalOf(rank)),
      lag: beside(correlation === null ? '–' : lagText(lagHours)),
    }
  })

import { type Correlation, correlationOf, rankCorrelation } from '../statistics/correlation.ts'
import { independentPairs } from '../statistics/independent-pairs.ts'
import { median } from '../statistics/spread.ts'
import { type RobustLine, theilSen } from '../statistics/trend.ts'
import type { ReadingPair } from './pair-readings.ts'

/** One series drawn against another: how they go together. */
export interface CrossPlot {
  readonly line: RobustLine | null
  readonly middle: { readonly x: number; readonly y: number } | null
  readonly correlation: Correlation | null
  readonly rank: Correlation | null
  /** Pairs that the line was drawn through; fewer than there are where these are very many. */
  readonly linePairs: number
  /** Of those the line was drawn through. */
  readonly independentPairs: number
}

const mostForLine = 800
const fewestForLine = 5

/**
 * Robust line of y against x (Theil 1950, Sen 1968), x taken as exact. Its interval is widened for what is left of y hanging together in
 * time with x (Pyper and Peterman 1998, as Hamed and Rao 1998 widen Kendall's score). Of more than 800 pairs every so many-th in order of
 * time counts, and it is said. A loop (y behind x, or ground that does not go back the way it came) does not show in a line: look at
 * the order in which pairs are joined.
 */
export function crossPlot(pairs: readonly ReadingPair[]): CrossPlot {
  const every = Math.ceil(pairs.length / mostForLine)
  const kept = pairs.filter((_, place) => place % every === 0)
  const [x, y] = [Float64Array.from(pairs, (one) => one.x), Float64Array.from(pairs, (one) => one.y)]
  return {
    ...lineThrough(kept),
    middle: pairs.length === 0 ? null : { x: median(Array.from(x)), y: median(Array.from(y)) },
    correlation: correlationOf(y, x),
    rank: rankCorrelation(y, x),
    linePairs: kept.length,
  }
}

function lineThrough(pairs: readonly ReadingPair[]): Pick<CrossPlot, 'line' | 'independentPairs'> {
  const [x, y] = [pairs.map((one) => one.x), pairs.map((one) => one.y)]
  if (pairs.length < fewestForLine || x.every((one) => one === x[0]))
    return { line: null, independentPairs: pairs.length }
  const { slope } = theilSen(x, y)
  const rest = Float64Array.from(pairs, (one) => one.y - slope * one.x)
  const independent = independentPairs(Float64Array.from(x), rest)
  return { line: theilSen(x, y, 0.95, pairs.length / independent), independentPairs: independent }
}

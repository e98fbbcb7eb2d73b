import { type Correlation, fisherInterval, pearson } from './correlation.ts'
import { independentPairs } from './independent-pairs.ts'

/** By how much one series comes after another. */
export interface LagBetween extends Correlation {
  /** Steps by which the first comes after the second where they go together best; below 0: before it. */
  readonly lag: number
  /** Lags that are not told from the best one, 95 %. */
  readonly lagInterval: readonly [low: number, high: number]
  /** True where the lags not told from the best one reach as far as was looked: it may lie beyond. */
  readonly open: boolean
  /** Other runs of lags that are not told from this one. */
  readonly alike: number
}

/**
 * The lag from −`mostLag` to `mostLag` steps at which two series on one even grid go together, and the run of lags around it whose
 * correlation is not below what chance leaves of the best absolute one (Fisher's z of the pairs that count as independent). What swings
 * regularly has several such runs, a swing apart: the one nearest to no lag is taken, one of the same sign before one of opposite
 * signs, and the others are counted. Null where no lag has enough pairs, or where the best correlation is not told from none.
 */
export function lagBetween(one: Float64Array, other: Float64Array, mostLag: number): LagBetween | null {
  const lags = Array.from({ length: 2 * mostLag + 1 }, (_, place) => place - mostLag)
  const found = lags.map((lag) => pearson(one, other, lag))
  const size = (place: number) => Math.abs(found[place]?.correlation ?? 0)
  const best = lags.reduce((kept, _, place) => (size(place) > size(kept) ? place : kept), mostLag)
  const top = found[best]
  if (!top) return null
  const independent = Math.min(top.pairs, independentPairs(one, other))
  const bounds = fisherInterval(top.correlation, independent)
  if (bounds[0] <= 0 && bounds[1] >= 0) return null
  const least = Math.min(Math.abs(bounds[0]), Math.abs(bounds[1]))
  const runs = runsOf(
    found.map((each) => (each && Math.abs(each.correlation) >= least ? each.correlation : 0)),
  )
  const farOff = ({ peak }: Run) => Math.abs(lags[peak] as number)
  const [chosen] = runs.toSorted(
    (a, b) => Number(b.sign) - Number(a.sign) || farOff(a) - farOff(b) || size(b.peak) - size(a.peak),
  )
  const at = chosen && found[chosen.peak]
  if (!chosen || !at) return null
  return {
    ...at,
    interval: fisherInterval(at.correlation, Math.min(at.pairs, independent)),
    independentPairs: Math.min(at.pairs, independent),
    lag: lags[chosen.peak] as number,
    lagInterval: [lags[chosen.low] as number, lags[chosen.high] as number],
    open: chosen.low === 0 || chosen.high === lags.length - 1,
    alike: runs.length - 1,
  }
}

interface Run {
  readonly low: number
  readonly high: number
  readonly peak: number
  readonly sign: number
}

/** Runs of neighbouring values of one sign; 0 parts them. */
function runsOf(values: readonly number[]): readonly Run[] {
  const runs: Run[] = []
  values.forEach((value, place) => {
    if (value === 0) return
    const last = runs.at(-1)
    if (!last || last.high !== place - 1 || last.sign !== Math.sign(value))
      runs.push({ low: place, high: place, peak: place, sign: Math.sign(value) })
    else
      runs[runs.length - 1] = {
        ...last,
        high: place,
        peak: Math.abs(value) > Math.abs(values[last.peak] as number) ? place : last.peak,
      }
  })
  return runs
}

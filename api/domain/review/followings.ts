import { keptWith } from '../kept-with.ts'
import { type LaggedCorrelation, laggedCorrelation } from '../statistics/lagged-correlation.ts'
import { lessOther, onOneGrid } from './on-one-grid.ts'
import type { Driver, ReviewCase } from './review-case.ts'

const hourMs = 3_600_000
const mostLagHours = 8
/** Means over so long are taken off, so that the season and the ground's own slow ways do not count as following. */
const slowHours = 72
const doesNotFollow = 0.4
const rounds = 3

/** Kinds of what may drive a reading that go by their own clocks. */
export const driverGroups = ['temperature', 'air-pressure', 'tide'] as const
export type DriverGroup = (typeof driverGroups)[number]

/** How a reading goes with one driver, what it takes from the other kinds being off. */
export interface Following {
  readonly group: DriverGroup
  readonly driver: Driver
  readonly how: LaggedCorrelation
  /** Range of what the driver does to the reading, as of a wave of the same spread; in the unit of the reading. */
  readonly swing: number
}

const groupOf = ({ kind }: Driver): DriverGroup | null =>
  kind === 'tide' || kind === 'air-pressure' ? kind : kind === 'rain' ? null : 'temperature'

/**
 * What a series follows from hour to hour: for temperature, air pressure and tide the driver that it goes with best, each
 * by itself, with what the series takes from the others taken off in turns, so that a strong tide hides no weaker air
 * pressure. A kind that is not read, or of which too little is there, is left out.
 */
export function followings({
  subject,
  drivers,
  fromEpochMs,
  untilEpochMs,
}: Pick<ReviewCase, 'drivers' | 'fromEpochMs' | 'untilEpochMs'> & {
  readonly subject: Pick<ReviewCase['subject'], 'atEpochMs' | 'values'>
}): readonly Following[] {
  const grid = onOneGrid(fromEpochMs, untilEpochMs, hourMs)
  const own = quick(grid.of(subject))
  const kinds = driverGroups.map((group) => ({
    group,
    choice: drivers
      .filter((driver) => groupOf(driver) === group)
      .map((driver) => ({ driver, series: quick(grid.of(driver)) })),
    best: null as Best | null,
  }))
  for (let round = 0; round < rounds; round++)
    for (const kind of kinds) {
      const others = kinds.flatMap(({ group, best }) => (group !== kind.group && best ? [best] : []))
      const left = others.reduce((series, other) => lessOther(series, shareOf(other)), own)
      const tried = kind.best ? [kind.best] : kind.choice
      kind.best = tried.reduce<Best | null>((best, { driver, series }) => {
        const how = laggedCorrelation(left, series, mostLagHours)
        if (!how) return best
        return best && Math.abs(best.how.correlation) >= Math.abs(how.correlation)
          ? best
          : { driver, series, how }
      }, null)
    }
  return kinds.flatMap(({ group, best }) =>
    best ? [{ group, driver: best.driver, how: best.how, swing: swingOf(best) }] : [],
  )
}

interface Best {
  readonly driver: Driver
  readonly series: Float64Array
  readonly how: LaggedCorrelation
}

/** What a driver gives a series; 0 where it follows too little to be told, or the driver was not read. */
function shareOf({ series, how }: Best): Float64Array {
  if (Math.abs(how.correlation) < doesNotFollow) return new Float64Array(series.length)
  return series.map((_, i) => {
    const value = series[i - how.lag]
    return value === undefined || Number.isNaN(value) ? 0 : how.slope * value
  })
}

function swingOf({ series, how }: Best): number {
  const values = series.filter(Number.isFinite)
  const variance = values.reduce((sum, value) => sum + value * value, 0) / Math.max(1, values.length)
  return 2 * Math.SQRT2 * Math.sqrt(variance) * Math.abs(how.slope)
}

/** Less the mean of the hours around it; NaN where too little is there for one. */
const quick = keptWith((series: Float64Array): Float64Array => {
  const half = slowHours / 2
  const sums = new Float64Array(series.length + 1)
  const counts = new Float64Array(series.length + 1)
  series.forEach((value, i) => {
    const there = Number.isFinite(value)
    sums[i + 1] = (sums[i] as number) + (there ? value : 0)
    counts[i + 1] = (counts[i] as number) + (there ? 1 : 0)
  })
  return series.map((value, i) => {
    const [from, until] = [Math.max(0, i - half), Math.min(series.length, i + half + 1)]
    const count = (counts[until] as number) - (counts[from] as number)
    return count < half / 2 ? Number.NaN : value - ((sums[until] as number) - (sums[from] as number)) / count
  })
})

import { keptWith } from '../kept-with.ts'
import { fisherInterval } from '../statistics/correlation.ts'
import { independentPairs } from '../statistics/independent-pairs.ts'
import { onOneGrid } from './on-one-grid.ts'
import type { Driver, ReviewCase } from './review-case.ts'

const hourMs = 3_600_000
const dayHours = 24

/** Half-lives that are tried, hours: from a shower's run-off to ground that drains in a fortnight. */
export const rainHalfLivesHours = [6, 12, 24, 48, 96, 168, 336] as const
/** Lags that are tried, hours. */
export const rainLagsHours = Array.from({ length: 13 }, (_, i) => 6 * i)

/** What fell in the stretch begins from nothing known before it: so long is left to forget that. */
const forgetDays = 5
const fewestDays = 20
const mostMissing = 0.1

/** How a series goes with the rain that fell before. */
export interface RainFollowing {
  readonly halfLifeHours: number
  /** Half-lives and lags whose correlation is not told from the best, 95 %. */
  readonly halfLifeInterval: readonly [number, number]
  readonly lagHours: number
  readonly lagInterval: readonly [number, number]
  readonly correlation: number
  /** 95 % at this half-life and lag (Fisher's z), and the changes that count, since both may hang together. */
  readonly correlationInterval: readonly [number, number]
  readonly independentDays: number
  /** Lower end of the correlation's size at 99.9 %: the best of many is looked for. */
  readonly leastCorrelation: number
  /** Of the series for 1 mm of antecedent rain. */
  readonly slope: number
  /** What the antecedent rain of the stretch does to the series, from its least to its most. */
  readonly swing: number
  readonly days: number
}

/** Rain of each hour of a stretch, mm; null: too many hours are not known. `values` of the gauge are amounts of its interval. */
export const rainByHour = (
  rain: Driver,
  { fromEpochMs, untilEpochMs }: Pick<ReviewCase, 'fromEpochMs' | 'untilEpochMs'>,
): Float64Array | null =>
  amountsOf(onOneGrid(fromEpochMs, untilEpochMs, hourMs).of(rain), rain.intervalMinutes)

const amountsOf = keptWith((means: Float64Array, intervalMinutes: number): Float64Array | null => {
  const perHour = Math.max(1, 60 / intervalMinutes)
  const everyHours = Math.max(1, intervalMinutes / 60)
  const known = means.filter(Number.isFinite).length * everyHours
  if (known < (1 - mostMissing) * means.length) return null
  return means.map((mean) => (Number.isFinite(mean) ? mean * perHour : 0))
})

/**
 * Antecedent rain at each hour: all that fell before, each millimetre counting half as much after every half-life (the
 * antecedent precipitation index of Kohler and Linsley 1951, from memory).
 */
export function antecedentRain(byHour: Float64Array, halfLifeHours: number): Float64Array {
  const keeps = 2 ** (-1 / halfLifeHours)
  let held = 0
  return byHour.map((fell) => {
    held = held * keeps + fell
    return held
  })
}

/**
 * The half-life and lag at which a series goes with antecedent rain best, by changes of daily means from day to day: so
 * neither tide and sun nor the ground's slow ways count as following. Null: too few days, or nothing varies.
 */
export function rainFollowing(
  { subject, fromEpochMs, untilEpochMs }: Pick<ReviewCase, 'subject' | 'fromEpochMs' | 'untilEpochMs'>,
  byHour: Float64Array,
): RainFollowing | null {
  const own = changes([...onOneGrid(fromEpochMs, untilEpochMs, dayHours * hourMs).of(subject)])
  const tried = rainsTried(byHour).flatMap((rain) => {
    const found = correlate(own, rain.changes)
    return found ? [{ ...rain, ...found }] : []
  })
  const best = tried.reduce<(typeof tried)[number] | null>(
    (one, other) => (one && Math.abs(one.correlation) >= Math.abs(other.correlation) ? one : other),
    null,
  )
  if (!best || best.days < fewestDays) return null
  const error = 1 / Math.sqrt(best.days - 3)
  const z = Math.atanh(Math.min(0.9999, Math.abs(best.correlation)))
  const alike = tried.filter(
    ({ correlation }) =>
      Math.sign(correlation) === Math.sign(best.correlation) &&
      Math.atanh(Math.min(0.9999, Math.abs(correlation))) >= z - 1.96 * error,
  )
  const span = (values: readonly number[]): readonly [number, number] => [
    Math.min(...values),
    Math.max(...values),
  ]
  const independentDays = Math.min(
    best.days,
    independentPairs(Float64Array.from(own), Float64Array.from(best.changes)),
  )
  const [least, most] = span([...best.index.slice(forgetDays * dayHours)])
  return {
    halfLifeHours: best.halfLifeHours,
    halfLifeInterval: span(alike.map(({ halfLifeHours }) => halfLifeHours)),
    lagHours: best.lagHours,
    lagInterval: span(
      alike
        .filter(({ halfLifeHours }) => halfLifeHours === best.halfLifeHours)
        .map(({ lagHours }) => lagHours),
    ),
    correlation: best.correlation,
    correlationInterval: fisherInterval(best.correlation, independentDays),
    independentDays,
    leastCorrelation: Math.tanh(Math.max(0, z - 3.29 * error)),
    slope: best.slope,
    swing: Math.abs(best.slope) * (most - least),
    days: best.days,
  }
}

/** Day-to-day changes of antecedent rain at every half-life and lag: all that is held against one gauge is held against these. */
const rainsTried = keptWith((byHour: Float64Array) =>
  rainHalfLivesHours.flatMap((halfLifeHours) => {
    const index = antecedentRain(byHour, halfLifeHours)
    return rainLagsHours.map((lagHours) => ({
      halfLifeHours,
      lagHours,
      index,
      changes: changes(dailyMeans(index, lagHours)),
    }))
  }),
)

function dailyMeans(index: Float64Array, lagHours: number): number[] {
  return Array.from({ length: Math.ceil(index.length / dayHours) }, (_, day) => {
    const from = day * dayHours - lagHours
    if (from < 0) return Number.NaN
    const hours = index.slice(from, from + dayHours)
    return hours.reduce((sum, one) => sum + one, 0) / hours.length
  })
}

const changes = (days: readonly number[]): number[] =>
  days.map((value, day) => (day <= forgetDays ? Number.NaN : value - (days[day - 1] as number)))

function correlate(one: readonly number[], other: readonly number[]) {
  let [days, sumOne, sumOther] = [0, 0, 0]
  for (let day = 0; day < one.length; day++) {
    const [value, beside] = [one[day] as number, other[day] as number]
    if (!Number.isFinite(value) || !Number.isFinite(beside)) continue
    days++
    sumOne += value
    sumOther += beside
  }
  let [products, squares, others] = [0, 0, 0]
  for (let day = 0; day < one.length; day++) {
    const [value, beside] = [one[day] as number, other[day] as number]
    if (!Number.isFinite(value) || !Number.isFinite(beside)) continue
    const [off, offBeside] = [value - sumOne / days, beside - sumOther / days]
    products += off * offBeside
    squares += off * off
    others += offBeside * offBeside
  }
  if (days < 4 || squares === 0 || others === 0) return null
  return { correlation: products / Math.sqrt(squares * others), slope: products / others, days }
}

import { accept, type Outcome, reject } from '../outcome.ts'
import { studentQuantile } from '../statistics/student-t.ts'
import {
  type ChangesFit,
  efficiencyByClark,
  efficiencyByDifferences,
  efficiencyByRegression,
  type WellAndAir,
} from './barometric-efficiency.ts'

/** What an estimate asks of the readings before it gives a number. */
export const efficiencyNeeds = {
  /** Two days of hourly changes: the air's own daily swing is in them twice. */
  changes: 48,
  airRangeKpa: 0.5,
  /** Of the 95 % interval from end to end: wider says little between 0 and 1. */
  intervalWidth: 0.5,
} as const

/** Barometric efficiency as it can be defended: a number, its interval, and what other methods say of the same readings. */
export interface EfficiencyEstimate extends ChangesFit {
  /** 95 %, by Student's t on the standard error. Not cut off at 0 and 1. */
  readonly interval: readonly [low: number, high: number]
  readonly airRangeKpa: number
  readonly byRegression: {
    readonly efficiency: number
    readonly interval: readonly [low: number, high: number]
    readonly trendMetresPerHour: number
  }
  /** Has no interval of its own; noise makes it too small. */
  readonly byClark: number
  /** Whole sentences. */
  readonly cautions: readonly string[]
}

/**
 * Barometric efficiency from the changes of an open well's level (see `openWellLevelMetres`), beside two other methods.
 * Refused with a sentence where there are too few changes, where the air hardly moved, and where something else moved
 * the water so much that the interval says little.
 */
export function estimateEfficiency(read: WellAndAir, unitWeightOfWater: number): Outcome<EfficiencyEstimate> {
  const count = Math.max(0, read.hours.length - 1)
  if (count < efficiencyNeeds.changes) return tooFew(count)
  const airRangeKpa = rangeOf(read.airPressureKpa)
  if (!(airRangeKpa >= efficiencyNeeds.airRangeKpa))
    return reject({
      code: 'air-pressure-still',
      message: `The air pressure moved by ${airRangeKpa.toFixed(2)} kPa only; at least ${efficiencyNeeds.airRangeKpa} kPa is needed to see what it does to the water. Choose an interval with a change of weather.`,
      value: String(airRangeKpa),
    })
  const fit = efficiencyByDifferences(read, unitWeightOfWater)
  const withTrend = efficiencyByRegression(read, unitWeightOfWater)
  const byClark = efficiencyByClark(read, unitWeightOfWater)
  if (!fit.ok) return fit
  if (!withTrend.ok) return withTrend
  if (!byClark.ok) return byClark
  const pairs = fit.value.changes.airMetres.length
  if (pairs < efficiencyNeeds.changes) return tooFew(pairs)
  const interval = intervalOf(fit.value, pairs - 2)
  const { trendMetresPerHour } = withTrend.value
  if (interval[1] - interval[0] > efficiencyNeeds.intervalWidth)
    return reject({
      code: 'efficiency-undetermined',
      message: `Something else than air pressure moved the water: the 95 % interval would reach from ${shown(interval[0])} to ${shown(interval[1])}, which says little. Over the interval the level has a trend of ${shown(trendMetresPerHour * spanOf(read.hours))} m, while the whole range of the air pressure is ${(airRangeKpa / unitWeightOfWater).toFixed(2)} m of water. Choose a time without pumping, rain or works.`,
      value: interval.join(' to '),
    })
  const byRegression = {
    efficiency: withTrend.value.efficiency,
    interval: intervalOf(withTrend.value, count - 2),
    trendMetresPerHour,
  }
  return accept({
    ...fit.value,
    interval,
    airRangeKpa,
    byRegression,
    byClark: byClark.value,
    cautions: cautionsOf(interval, byRegression.interval),
  })
}

const tooFew = (count: number) =>
  reject({
    code: 'changes-too-few',
    message: `There are ${count} changes from one reading to the next with air pressure beside both; at least ${efficiencyNeeds.changes} are needed. Choose a longer interval.`,
    value: String(count),
  })

function intervalOf(
  { efficiency, standardError }: { readonly efficiency: number; readonly standardError: number },
  degreesOfFreedom: number,
): readonly [number, number] {
  const half = studentQuantile(0.975, degreesOfFreedom) * standardError
  return [efficiency - half, efficiency + half]
}

function cautionsOf(
  [low, high]: readonly [number, number],
  [trendLow, trendHigh]: readonly [number, number],
): readonly string[] {
  const outside =
    high < 0 || low > 1
      ? [
          'The whole interval lies outside 0 to 1, which no aquifer has: the readings, the barometer or the term already in the calibration is not what it is taken for.',
        ]
      : []
  const apart =
    high < trendLow || low > trendHigh
      ? [
          'The changes and the whole course with its trend disagree beyond their intervals: the well answers fast and slow changes differently, or something else moved with the air pressure.',
        ]
      : []
  return [...outside, ...apart]
}

function rangeOf(values: readonly number[]): number {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const value of values) {
    low = Math.min(low, value)
    high = Math.max(high, value)
  }
  return high - low
}

const spanOf = (hours: readonly number[]): number => (hours.at(-1) ?? 0) - (hours[0] ?? 0)

const shown = (value: number): string => value.toFixed(2).replace('-', '−')

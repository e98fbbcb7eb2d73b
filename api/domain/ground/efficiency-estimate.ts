import { accept, type Outcome, reject } from '../outcome.ts'
import { studentQuantile } from '../statistics/student-t.ts'
import { efficiencyByRegression, type WellAndAir } from './barometric-efficiency.ts'
import { type ChangesFit, efficiencyByClark, efficiencyByDifferences } from './efficiency-by-changes.ts'

/** What an estimate asks of the readings before it gives a number. */
export const efficiencyNeeds = {
  changes: 48,
  /** Changes over a day overlap: this many days hold that many less one of their own. */
  days: 7,
  airRangeKpa: 0.5,
  /** Of the 95 % interval from end to end: wider says little between 0 and 1. */
  intervalWidth: 0.5,
} as const

interface Bounded {
  readonly efficiency: number
  /** 95 %, by Student's t on the standard error. Not cut off at 0 and 1. */
  readonly interval: readonly [low: number, high: number]
}

/**
 * Barometric efficiency as it can be defended: from changes over a day, with its interval, and what other methods say of
 * the same readings.
 */
export interface EfficiencyEstimate extends ChangesFit, Bounded {
  readonly airRangeKpa: number
  readonly byNextReading: Bounded
  readonly byRegression: Bounded & { readonly trendMetresPerHour: number }
  /** Has no interval of its own; noise makes it too small. */
  readonly byClark: number
  /** Whole sentences. */
  readonly cautions: readonly string[]
}

const dayHours = 24

/**
 * Barometric efficiency from the changes over a day of an open well's level (see `openWellLevelMetres`), beside three
 * other methods. The degrees of freedom of its interval count one change in two days; of made-up records whose residuals hang
 * together over two days it holds the truth in 92 to 94 of a hundred.
 * Refused with a sentence where there are too few changes, where the air hardly moved, and where something else moved the
 * water so much that the interval says little.
 */
export function estimateEfficiency(read: WellAndAir, unitWeightOfWater: number): Outcome<EfficiencyEstimate> {
  const spanHours = (read.hours.at(-1) ?? 0) - (read.hours[0] ?? 0)
  if (read.hours.length <= efficiencyNeeds.changes || spanHours < efficiencyNeeds.days * dayHours)
    return tooFew(read.hours.length, spanHours)
  const airRangeKpa = rangeOf(read.airPressureKpa)
  if (!(airRangeKpa >= efficiencyNeeds.airRangeKpa))
    return reject({
      code: 'air-pressure-still',
      message: `The air pressure moved by ${airRangeKpa.toFixed(2)} kPa only; at least ${efficiencyNeeds.airRangeKpa} kPa is needed to see what it does to the water. Choose an interval with a change of weather.`,
      value: String(airRangeKpa),
    })
  const fit = efficiencyByDifferences(read, unitWeightOfWater, dayHours)
  const next = efficiencyByDifferences(read, unitWeightOfWater)
  const course = efficiencyByRegression(read, unitWeightOfWater)
  const clark = efficiencyByClark(read, unitWeightOfWater)
  if (!fit.ok) return tooFew(read.hours.length, spanHours)
  if (!next.ok) return next
  if (!course.ok) return course
  if (!clark.ok) return clark
  const { airMetres, stepHours } = fit.value.changes
  if (airMetres.length < efficiencyNeeds.changes) return tooFew(read.hours.length, spanHours)
  // Weather lasts longer than a day: two days of changes count as one.
  const apart = airMetres.length * Math.min(1, stepHours / (2 * dayHours))
  const interval = intervalOf(fit.value, Math.max(1, apart - 2))
  const { trendMetresPerHour } = course.value
  if (interval[1] - interval[0] > efficiencyNeeds.intervalWidth)
    return reject({
      code: 'efficiency-undetermined',
      message: `Something else than air pressure moved the water: the 95 % interval would reach from ${shown(interval[0])} to ${shown(interval[1])}, which says little. Over the interval the level has a trend of ${shown(trendMetresPerHour * spanHours)} m, while the whole range of the air pressure is ${shown(airRangeKpa / unitWeightOfWater)} m of water. Choose a longer time, without pumping, rain or works.`,
      value: interval.join(' to '),
    })
  const byNextReading = bounded(next.value, next.value.changes.airMetres.length - 2)
  const byRegression = bounded(course.value, read.hours.length - 3)
  return accept({
    ...fit.value,
    interval,
    airRangeKpa,
    byNextReading,
    byRegression: { ...byRegression, trendMetresPerHour },
    byClark: clark.value,
    cautions: cautionsOf(interval, [byNextReading.interval, byRegression.interval]),
  })
}

const tooFew = (count: number, spanHours: number) =>
  reject({
    code: 'changes-too-few',
    message: `There are ${count} readings with air pressure beside them, over ${(spanHours / dayHours).toFixed(1)} days; changes over a day need more than ${efficiencyNeeds.changes} readings over at least ${efficiencyNeeds.days} days, and readings a day apart among them. Choose a longer interval.`,
    value: String(count),
  })

interface Fitted {
  readonly efficiency: number
  readonly standardError: number
}

const bounded = (fit: Fitted, degreesOfFreedom: number): Bounded => ({
  efficiency: fit.efficiency,
  interval: intervalOf(fit, degreesOfFreedom),
})

function intervalOf({ efficiency, standardError }: Fitted, degreesOfFreedom: number): Bounded['interval'] {
  const half = studentQuantile(0.975, degreesOfFreedom) * standardError
  return [efficiency - half, efficiency + half]
}

function cautionsOf(
  [low, high]: Bounded['interval'],
  others: readonly Bounded['interval'][],
): readonly string[] {
  const outside =
    high < 0 || low > 1
      ? [
          'The whole interval lies outside 0 to 1, which no aquifer has: the readings, the barometer or the term already in the calibration is not what it is taken for.',
        ]
      : []
  const apart = others.some(([otherLow, otherHigh]) => high < otherLow || low > otherHigh)
    ? [
        'Methods disagree beyond their intervals: the well answers fast and slow changes differently, or something else moved with the air pressure.',
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

const shown = (value: number): string => value.toFixed(2).replace('-', '−')

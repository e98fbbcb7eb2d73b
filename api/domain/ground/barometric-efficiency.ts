import { accept, type Outcome, reject } from '../outcome.ts'
import { autocorrelatedSlopeError, lagsToLookOver } from '../statistics/autocorrelated-slope.ts'
import { fitLine } from '../statistics/least-squares.ts'
import { median } from '../statistics/spread.ts'

/** Water level in a well beside air pressure, read together, in order of time. */
export interface WellAndAir {
  readonly hours: readonly number[]
  readonly airPressureKpa: readonly number[]
  /** Up positive. */
  readonly levelMetres: readonly number[]
}

/** Barometric efficiency with what was left over. */
export interface EfficiencyFit {
  /** Fall of the level over rise of the air pressure as head: 0 none of it, 1 all. */
  readonly efficiency: number
  /** By least squares, or with what hangs together in time (Newey and West 1987) where that is more. */
  readonly standardError: number
  /** Of the level, beside the air. */
  readonly trendMetresPerHour: number
  readonly residualStandardDeviationMetres: number
}

/**
 * Barometric efficiency (Jacob 1940) by regression of the level on air pressure as head and on time together. Trends
 * of other than a straight line, tides and pumping must be out of the readings first.
 */
export function efficiencyByRegression(read: WellAndAir, unitWeightOfWater: number): Outcome<EfficiencyFit> {
  const heads = read.airPressureKpa.map((kpa) => kpa / unitWeightOfWater)
  // Frisch and Waugh: with the line in time taken out of both, a simple regression gives the multiple one's slope.
  const airTrend = fitLine(read.hours, heads)
  const levelTrend = fitLine(read.hours, read.levelMetres)
  if (!airTrend.ok) return airTrend
  if (!levelTrend.ok) return levelTrend
  const without = (values: readonly number[], { intercept, slope }: { intercept: number; slope: number }) =>
    values.map((value, at) => value - intercept - slope * (read.hours[at] ?? Number.NaN))
  const air = without(heads, airTrend.value)
  const level = without(read.levelMetres, levelTrend.value)
  const fit = fitLine(air, level)
  if (!fit.ok) return fit
  const { intercept, slope, count, residualStandardDeviation, slopeStandardError } = fit.value
  if (count < 4)
    return reject({
      code: 'readings-too-few',
      message: 'Efficiency, trend and scatter need four readings at least.',
      value: String(count),
    })
  // Three numbers are fitted, not two.
  const wider = Math.sqrt((count - 2) / (count - 3))
  const residuals = level.map((rise, at) => rise - intercept - slope * (air[at] ?? Number.NaN))
  const lags = lagsToLookOver(count, usualStepHours(read.hours))
  return accept({
    efficiency: -slope,
    standardError: Math.max(
      slopeStandardError * wider,
      autocorrelatedSlopeError(air, residuals, lags, 3) ?? 0,
    ),
    trendMetresPerHour: levelTrend.value.slope - slope * airTrend.value.slope,
    residualStandardDeviationMetres: residualStandardDeviation * wider,
  })
}

/**
 * What sensors of each kind say to a rise of air pressure in kPa over ground of a barometric efficiency. A sealed tip
 * feels 1 − efficiency of it, which is the `efficiency` of a barometric term: taking the whole out would overcorrect.
 */
export function responseToAirPressure(
  barometricEfficiency: number,
  riseKpa: number,
  unitWeightOfWater: number,
) {
  const felt = (1 - barometricEfficiency) * riseKpa
  return {
    wellLevelMetres: (-barometricEfficiency * riseKpa) / unitWeightOfWater,
    ventedInWellKpa: -barometricEfficiency * riseKpa,
    absoluteInWellKpa: felt,
    sealedInAquiferKpa: felt,
    /** Under open water, or a shallow water table. */
    absoluteUnconfinedKpa: riseKpa,
  }
}

const steps = (values: readonly number[]) =>
  values.slice(1).map((value, at) => value - (values[at] ?? Number.NaN))

/** Median time between two readings; 0 of fewer than two. */
export const usualStepHours = (hours: readonly number[]): number =>
  hours.length < 2 ? 0 : median(steps(hours))

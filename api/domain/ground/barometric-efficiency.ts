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

/** Barometric efficiency of changes, each a pair: rise of the air as head beside rise of the level. */
export interface ChangesFit {
  readonly efficiency: number
  /** As that of `EfficiencyFit`. */
  readonly standardError: number
  /** Rise of the level over one change's time while the air stands still: the trend. */
  readonly driftMetres: number
  readonly changes: WellChanges
}

/** Changes over one length of time, in metres of water. */
export interface WellChanges {
  readonly airMetres: readonly number[]
  readonly levelMetres: readonly number[]
  /** Usual time between two readings. */
  readonly stepHours: number
  /** That each change is taken over. */
  readonly overHours: number
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
 * Barometric efficiency by regression of the changes from each reading to the next: a steady trend falls out. With
 * `overHours` each change is from the reading that long before, and changes overlap: over 24 h what comes back every day
 * falls out too, most of a tide with it, and noise counts for less. A change across a gap, longer than half as much again as
 * the usual step, is left out. Refused with fewer than three changes.
 */
export function efficiencyByDifferences(
  read: WellAndAir,
  unitWeightOfWater: number,
  overHours?: number,
): Outcome<ChangesFit> {
  const found = changes(read, unitWeightOfWater, overHours)
  const fit = fitLine(found.airMetres, found.levelMetres)
  if (!fit.ok) return fit
  const { intercept, slope, count, slopeStandardError } = fit.value
  if (count < 3)
    return reject({
      code: 'readings-too-few',
      message: 'Efficiency, drift and scatter need three changes at least.',
      value: String(count),
    })
  const mean = found.airMetres.reduce((sum, rise) => sum + rise, 0) / count
  const residuals = found.levelMetres.map(
    (rise, at) => rise - intercept - slope * (found.airMetres[at] ?? Number.NaN),
  )
  const around = found.airMetres.map((rise) => rise - mean)
  const lags = lagsToLookOver(count, found.stepHours, Math.max(24, 2 * found.overHours))
  return accept({
    efficiency: -slope,
    standardError: Math.max(slopeStandardError, autocorrelatedSlopeError(around, residuals, lags, 2) ?? 0),
    driftMetres: intercept,
    changes: found,
  })
}

/**
 * Barometric efficiency by Clark's (1967) sum: changes of level count for it where air pressure changed the other way,
 * against it where both went the same way, over all changes of air pressure. Noise of the level makes it too small.
 */
export function efficiencyByClark(read: WellAndAir, unitWeightOfWater: number): Outcome<number> {
  const { airMetres, levelMetres } = changes(read, unitWeightOfWater)
  let [against, whole] = [0, 0]
  airMetres.forEach((change, at) => {
    against -= (levelMetres[at] ?? Number.NaN) * Math.sign(change)
    whole += Math.abs(change)
  })
  return Number.isFinite(against) && whole > 0
    ? accept(against / whole)
    : reject({
        code: 'air-pressure-still',
        message:
          'The air pressure did not change, or a reading is missing: nothing can be said of its effect.',
        value: String(whole),
      })
}

function changes(
  { hours, airPressureKpa, levelMetres }: WellAndAir,
  unitWeightOfWater: number,
  wantedHours?: number,
): WellChanges {
  const stepHours = usualStepHours(hours)
  const overHours = wantedHours ?? stepHours
  const airMetres: number[] = []
  const levels: number[] = []
  let before = 0
  hours.forEach((hour, at) => {
    if (at === 0) return
    if (wantedHours === undefined) before = at - 1
    else while (before < at && hour - (hours[before] ?? Number.NaN) > overHours + stepHours / 2) before++
    if (before === at || Math.abs(hour - (hours[before] ?? Number.NaN) - overHours) > stepHours / 2) return
    const rise = (values: readonly number[]) => (values[at] ?? Number.NaN) - (values[before] ?? Number.NaN)
    airMetres.push(rise(airPressureKpa) / unitWeightOfWater)
    levels.push(rise(levelMetres))
  })
  return { airMetres, levelMetres: levels, stepHours, overHours }
}

const steps = (values: readonly number[]) =>
  values.slice(1).map((value, at) => value - (values[at] ?? Number.NaN))

const usualStepHours = (hours: readonly number[]): number => (hours.length < 2 ? 0 : median(steps(hours)))

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

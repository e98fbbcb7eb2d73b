import { accept, type Outcome, reject } from '../outcome.ts'
import { fitLine } from '../statistics/least-squares.ts'

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
  const fit = fitLine(without(heads, airTrend.value), without(read.levelMetres, levelTrend.value))
  if (!fit.ok) return fit
  const { slope, count, residualStandardDeviation, slopeStandardError } = fit.value
  if (count < 4)
    return reject({
      code: 'readings-too-few',
      message: 'Efficiency, trend and scatter need four readings at least.',
      value: String(count),
    })
  // Three numbers are fitted, not two.
  const wider = Math.sqrt((count - 2) / (count - 3))
  return accept({
    efficiency: -slope,
    standardError: slopeStandardError * wider,
    trendMetresPerHour: levelTrend.value.slope - slope * airTrend.value.slope,
    residualStandardDeviationMetres: residualStandardDeviation * wider,
  })
}

/** Barometric efficiency by regression of the changes from each reading to the next: a steady trend falls out. */
export function efficiencyByDifferences(read: WellAndAir, unitWeightOfWater: number): Outcome<number> {
  const { air, level } = changes(read, unitWeightOfWater)
  const fit = fitLine(air, level)
  return fit.ok ? accept(-fit.value.slope) : fit
}

/**
 * Barometric efficiency by Clark's (1967) sum: changes of level count for it where air pressure changed the other way,
 * against it where both went the same way, over all changes of air pressure. Noise of the level makes it too small.
 */
export function efficiencyByClark(read: WellAndAir, unitWeightOfWater: number): Outcome<number> {
  const { air, level } = changes(read, unitWeightOfWater)
  let [against, whole] = [0, 0]
  air.forEach((change, at) => {
    against -= (level[at] ?? Number.NaN) * Math.sign(change)
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

function changes({ airPressureKpa, levelMetres }: WellAndAir, unitWeightOfWater: number) {
  const steps = (values: readonly number[]) =>
    values.slice(1).map((value, at) => value - (values[at] ?? Number.NaN))
  return { air: steps(airPressureKpa.map((kpa) => kpa / unitWeightOfWater)), level: steps(levelMetres) }
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

import { accept, type Outcome, reject } from '../outcome.ts'
import { autocorrelatedSlopeError, lagsToLookOver } from '../statistics/autocorrelated-slope.ts'
import { fitLine } from '../statistics/least-squares.ts'
import { usualStepHours, type WellAndAir } from './barometric-efficiency.ts'

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

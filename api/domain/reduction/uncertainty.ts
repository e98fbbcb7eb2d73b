import type { CalibrationStep, Companions } from './chain.ts'
import { runChain } from './run-chain.ts'
import { steps as stepsByKind } from './steps.ts'

/** Standard uncertainties (JCGM 100, coverage factor 1) of what goes into a value; null where not known. */
export interface UncertaintySources {
  /** Of the raw reading, in its raw unit. */
  readonly raw: number | null
  /** Of the calibration, in the engineering unit: what the certificate says of the sensor as a whole. */
  readonly calibration: number | null
  readonly temperatureDegC: number | null
  readonly barometerKpa: number | null
  /**
   * Of the zero, in the engineering unit: the standard error of the mean of its zero readings (`zeroBaseline`). Like
   * the calibration's it belongs to the level and cancels in a change (`changeUncertainty`). Null or absent: not known.
   */
  readonly zero?: number | null
}

export const noUncertainty: UncertaintySources = {
  raw: null,
  calibration: null,
  temperatureDegC: null,
  barometerKpa: null,
}

/** Standard uncertainty of a reading rounded to a resolution: a rectangle of that width (JCGM 100, 4.3.7). */
export const resolutionUncertainty = (resolution: number): number => resolution / (2 * Math.sqrt(3))

/** Of a value known to lie within `halfWidth` either side and no likelier anywhere there (JCGM 100, 4.3.7). */
export const rectangularUncertainty = (halfWidth: number): number => halfWidth / Math.sqrt(3)

/**
 * Of the difference of two values of one sensor under one calibration: the calibration's offset is common to both and
 * cancels, only what is independent from reading to reading stays (JCGM 100, 5.2). A change is known far better than
 * a level.
 */
export const changeUncertainty = (ofOneReading: number): number => combine(ofOneReading, ofOneReading)

/** Root of the sum of squares: independent contributions together. */
export const combine = (...contributions: readonly number[]): number => Math.hypot(...contributions)

/**
 * Standard uncertainty after each step of a chain, in that step's unit, from the reading and its companions by
 * the steps' derivatives (JCGM 100, eq. 10: first order, independent inputs). Null where nothing is known or
 * there is no value. The calibration's own is not in it: `chainUncertainty` adds it at the end.
 */
export function carriedUncertainty(
  raw: number,
  steps: readonly CalibrationStep[],
  companions: Companions,
  sources: UncertaintySources,
): readonly (number | null)[] {
  let carried = { raw: sources.raw, temperatureDegC: 0, barometerKpa: 0 }
  return runChain(raw, steps, companions).lines.map(({ step, x, y, skipped }) => {
    const { derivative, companionDerivative, needs } = stepsByKind[step.kind]
    const slope = skipped ? 1 : derivative(x, step.parameters, companions)
    carried = {
      raw: carried.raw === null ? null : carried.raw * slope,
      temperatureDegC: carried.temperatureDegC * slope,
      barometerKpa: carried.barometerKpa * slope,
    }
    if (needs !== null && companionDerivative !== undefined && !skipped)
      carried[needs] += (sources[needs] ?? 0) * companionDerivative(step.parameters, companions)
    const nothingKnown = carried.raw === null && carried.temperatureDegC === 0 && carried.barometerKpa === 0
    if (y === null || nothingKnown) return null
    return combine(carried.raw ?? 0, carried.temperatureDegC, carried.barometerKpa)
  })
}

/**
 * Standard uncertainty of a reduced value as a level: what the reading and its companions bring through the chain,
 * the calibration's own and its zero's, combined as independent. Null where none is known or there is no value.
 * A companion's effects at several steps add with their signs before they are squared.
 */
export function chainUncertainty(
  raw: number,
  steps: readonly CalibrationStep[],
  companions: Companions,
  sources: UncertaintySources,
): number | null {
  if (runChain(raw, steps, companions).value === null) return null
  const carried = carriedUncertainty(raw, steps, companions, sources).at(-1) ?? sources.raw
  const zero = sources.zero ?? null
  if (carried === null && sources.calibration === null && zero === null) return null
  return combine(carried ?? 0, sources.calibration ?? 0, zero ?? 0)
}

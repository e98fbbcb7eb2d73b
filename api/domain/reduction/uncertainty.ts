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
  /**
   * Scatter of single readings under the same conditions, in the engineering unit (`readingScatter`). Null or absent:
   * not known, so that it may be any part of the calibration's.
   */
  readonly repeatability?: number | null
}

export const noUncertainty: UncertaintySources = {
  raw: null,
  calibration: null,
  temperatureDegC: null,
  barometerKpa: null,
}

/**
 * Standard uncertainty of a reading rounded to a resolution: a rectangle of that width, 0.29 of it (JCGM 100, F.2.2.1).
 */
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
 * A standard uncertainty in the two parts that a change tells apart (JCGM 100, F.1.2: inputs that two values share are
 * correlated), in the unit of the value; null where nothing of the part is known.
 */
export interface UncertaintyShares {
  /** The same in all values under one calibration: the calibration's own and its zero's. */
  readonly common: number | null
  /** Anew in every reading: its resolution, its scatter, what its companions bring. */
  readonly independent: number | null
}

/**
 * The shares of a reduced value's standard uncertainty. Null where nothing is known or there is no value. A companion's
 * effects at several steps add with their signs before they are squared. Its own calibration is held to be independent
 * too, though two values share it as well: the wide side.
 */
export function uncertaintyShares(
  raw: number,
  steps: readonly CalibrationStep[],
  companions: Companions,
  sources: UncertaintySources,
): UncertaintyShares | null {
  if (runChain(raw, steps, companions).value === null) return null
  const carried = carriedUncertainty(raw, steps, companions, sources).at(-1) ?? sources.raw
  const common = together(sources.calibration, sources.zero)
  const independent = together(carried, sources.repeatability)
  return common === null && independent === null ? null : { common, independent }
}

/** Standard uncertainty of a reduced value as a level: both its shares, combined as independent. */
export function chainUncertainty(
  raw: number,
  steps: readonly CalibrationStep[],
  companions: Companions,
  sources: UncertaintySources,
): number | null {
  const shares = uncertaintyShares(raw, steps, companions, sources)
  return shares && together(shares.common, shares.independent)
}

/** Contributions together, as far as they are known; null where none is. */
function together(...contributions: readonly (number | null | undefined)[]): number | null {
  const known = contributions.flatMap((one) => one ?? [])
  return known.length === 0 ? null : combine(...known)
}

import type { ZeroBaseline } from '../baseline/zero-baseline.ts'
import { zeroUncertaintySentence } from '../baseline/zero-sentences.ts'
import type { Calibration } from './chain.ts'
import { quantityText } from './number-text.ts'
import { resolutionUncertainty, type UncertaintySources } from './uncertainty.ts'

/** What is known of a reading, from the records and its companions. */
export interface KnownOfReading {
  readonly calibration: Pick<Calibration, 'standardUncertainty'> | null
  /** What the calibration's zero readings say; null or absent: it has none. */
  readonly zero?: ZeroBaseline | null
  /** Smallest step of the raw reading, raw unit; null or absent: not known. */
  readonly rawResolution?: number | null
  readonly temperatureStandardUncertainty: number | null
  readonly barometerStandardUncertainty: number | null
}

/** Where a value's standard uncertainty comes from: the same for its trail and for what its series is published with. */
export const uncertaintySources = (known: KnownOfReading): UncertaintySources => ({
  raw: known.rawResolution == null ? null : resolutionUncertainty(known.rawResolution),
  calibration: known.calibration?.standardUncertainty ?? null,
  zero: known.zero?.standardError ?? null,
  repeatability: readingScatter(known),
  temperatureDegC: known.temperatureStandardUncertainty,
  barometerKpa: known.barometerStandardUncertainty,
})

/**
 * Scatter of single readings as the zero readings show it, engineering unit. Where all of them are the same it lies
 * below what the reading resolves: 0 beside a stated resolution, else not known. Readings that are rounded scatter by
 * their rounding as well, so that a resolution counts twice in part: the wide side.
 */
export function readingScatter({
  zero,
  rawResolution,
}: Pick<KnownOfReading, 'zero' | 'rawResolution'>): number | null {
  const scatter = zero?.repeatability ?? null
  return scatter === 0 && rawResolution == null ? null : scatter
}

/** How zero, scatter and resolution entered a value's uncertainty, a sentence each; `slope` is dy/dx of the chain there. */
export function uncertaintySentences(
  known: KnownOfReading,
  { unit, rawUnit, slope }: { readonly unit: string; readonly rawUnit: string; readonly slope: number },
): readonly string[] {
  const { zero, rawResolution } = known
  const scatter = readingScatter(known)
  const ofZero = zero ? zeroUncertaintySentence(zero, unit) : null
  return [
    ...(ofZero === null ? [] : [ofZero]),
    ...(scatter === null || scatter === 0
      ? []
      : [
          `Single readings scatter as the zero readings do: their standard deviation of ${two(scatter, unit)} is in it too, anew at every reading.`,
        ]),
    ...(rawResolution == null
      ? []
      : [
          `Resolution: the reading changes in steps of ${quantityText(rawResolution, rawUnit)}, a rectangle of that width, whose standard uncertainty is the width / √12 = ${two(resolutionUncertainty(rawResolution), rawUnit)} (JCGM 100, F.2.2.1), here ${two(Math.abs(slope) * resolutionUncertainty(rawResolution), unit)}; it is in the standard uncertainty of this value.`,
        ]),
  ]
}

const two = (value: number, unit: string): string => quantityText(Number(value.toPrecision(2)), unit)

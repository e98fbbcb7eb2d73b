import { quantityText } from '../reduction/number-text.ts'
import type { ZeroBaseline } from './zero-baseline.ts'

/** A calibration's baseline in words, for its record. */
export function baselineSentence(baseline: ZeroBaseline, unit: string): string {
  const { count, repeatability, standardError, smallestDetectableChange } = baseline
  const middle = `mean ${rounded(baseline.mean, unit, standardError)}`
  if (repeatability === null)
    return `Baseline of 1 reading, ${rounded(baseline.mean, unit, null)}: it has no spread, so how well the zero is known cannot be told.`
  if (standardError === null || smallestDetectableChange === null)
    return `Baseline of ${count} readings, ${middle}, all the same: their scatter lies below what the reading resolves, so how well the zero is known cannot be told.`
  return `Baseline of ${worth(baseline)}: ${middle}, repeatability ${two(repeatability, unit)} (standard deviation, itself known to about ${spreadPercent(baseline)} %), standard error of the zero ${two(standardError, unit)}. Smallest change from the zero that a single reading shows above such scatter: ${two(smallestDetectableChange, unit)} (95 % confidence, 80 % power).`
}

/** How the zero entered a value's standard uncertainty; null where nothing is known of it. */
export function zeroUncertaintySentence(baseline: ZeroBaseline, unit: string): string | null {
  if (baseline.standardError === null) return null
  return `The zero rests on ${worth(baseline)}: its standard error of ${two(baseline.standardError, unit)} is in the standard uncertainty of this value, in quadrature. It is common to all values under this calibration and cancels in the change between two of them.`
}

function worth({ count, effectiveCount }: ZeroBaseline): string {
  const alike = count - effectiveCount < 0.05
  return `${count} readings${alike ? '' : ` (worth ${effectiveCount.toFixed(1)} independent ones)`}`
}

/** Relative standard uncertainty of a standard deviation (JCGM 100, E.4.3), by the effective number. */
const spreadPercent = ({ effectiveCount }: ZeroBaseline): string =>
  (100 / Math.sqrt(2 * Math.max(0.5, effectiveCount - 1))).toFixed(0)

const two = (value: number, unit: string): string => quantityText(Number(value.toPrecision(2)), unit)

/** To the second digit of its uncertainty. */
function rounded(value: number, unit: string, standardError: number | null): string {
  if (standardError === null || standardError <= 0) return quantityText(Number(value.toPrecision(4)), unit)
  const decimals = Math.min(12, Math.max(0, 1 - Math.floor(Math.log10(standardError))))
  return quantityText(Number(value.toFixed(decimals)), unit)
}

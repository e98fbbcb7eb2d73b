import { numberText, quantityText } from '../number-text.ts'
import { sqlNumber, sqlPositive } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * Frequency of a vibrating wire in Hz to its square divided by 1000, in which wire stress is linear
 * (f = √(σ/ρ) / 2L). A frequency of 0 or less is no vibration and gives null.
 */
export const frequencySquared: Step = {
  kind: 'frequency-squared',
  formula: stepParameters['frequency-squared'].formula,
  needs: null,
  unitIn: () => 'Hz',
  unitOut: () => '10*3.Hz2',
  apply: (x) => (x > 0 && x < Infinity ? (x * x) / 1000 : null),
  sql: (x) => `(${sqlPositive(x)} * ${x} / ${sqlNumber(1000)})`,
  derivative: (x) => (x > 0 && x < Infinity ? (2 * x) / 1000 : NaN),
  invert: (y) => (y > 0 && y < Infinity ? Math.sqrt(1000 * y) : null),
  sentence: (x, y) =>
    y === null
      ? `A frequency of ${quantityText(x, 'Hz')} is no vibration; the wire did not answer.`
      : `Frequency squared divided by 1000: ${numberText(x)}² / 1000 = ${quantityText(y, '10*3.Hz2')}.`,
}

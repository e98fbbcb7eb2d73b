import { numberText, quantityText } from '../number-text.ts'
import { sqlNumber, sqlPositive } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/** Period of a vibrating wire in µs to its frequency in Hz; a period of 0 or less is no vibration and gives null. */
export const periodToFrequency: Step = {
  kind: 'period-to-frequency',
  formula: stepParameters['period-to-frequency'].formula,
  needs: null,
  unitIn: () => 'us',
  unitOut: () => 'Hz',
  apply: (x) => (x > 0 && x < Infinity ? 1e6 / x : null),
  sql: (x) => `(${sqlNumber(1e6)} / ${sqlPositive(x)})`,
  derivative: (x) => (x > 0 && x < Infinity ? -1e6 / (x * x) : NaN),
  invert: (y) => (y > 0 && y < Infinity ? 1e6 / y : null),
  sentence: (x, y) =>
    y === null
      ? `A period of ${quantityText(x, 'us')} is no vibration; the wire did not answer.`
      : `Frequency is 1 000 000 divided by the period: 1 000 000 / ${numberText(x)} = ${quantityText(y, 'Hz')}.`,
}

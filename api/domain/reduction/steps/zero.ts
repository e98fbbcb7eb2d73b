import { numberText, operandText, quantityText } from '../number-text.ts'
import { givenOrDefault, numberOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/** Change since the zero (reference) measurement. */
export const zero: Step = {
  kind: 'zero',
  formula: stepParameters.zero.formula,
  needs: null,
  unitIn: () => null,
  unitOut: (_parameters, unitIn) => unitIn,
  apply: (x, parameters) => x - numberOf(parameters, 'value'),
  sql: (x, parameter) => `(${x} - ${parameter('value')})`,
  derivative: () => 1,
  invert: (y, parameters) => y + numberOf(parameters, 'value'),
  sentence: (x, y, parameters, _companions, { unitOut }) =>
    y === null
      ? `There is no change to reckon from ${quantityText(x, unitOut)}.`
      : givenOrDefault('zero', parameters, 'correction') > 0
        ? `Correction ${givenOrDefault('zero', parameters, 'correction')} of the survey taken off: ${numberText(x)} − ${operandText(numberOf(parameters, 'value'))} = ${quantityText(y, unitOut)}.`
        : `Change since the zero reading: ${numberText(x)} − ${operandText(numberOf(parameters, 'value'))} = ${quantityText(y, unitOut)}.`,
}

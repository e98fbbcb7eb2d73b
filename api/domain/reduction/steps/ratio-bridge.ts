import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf, textOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * A full bridge in mV per V of measured excitation to its capacity's unit. `zero` and `sensitivity`
 * (output at capacity above zero) are in mV/V, `capacity` in the unit.
 */
export const ratioBridge: Step = {
  kind: 'ratio-bridge',
  formula: stepParameters['ratio-bridge'].formula,
  needs: null,
  unitIn: () => 'mV/V',
  unitOut: (parameters) => textOf(parameters, 'unit'),
  apply: (x, parameters) =>
    ((x - numberOf(parameters, 'zero')) / numberOf(parameters, 'sensitivity')) *
    numberOf(parameters, 'capacity'),
  sql: (x, parameter) =>
    `((${x} - ${parameter('zero')}) / ${parameter('sensitivity')} * ${parameter('capacity')})`,
  derivative: (_x, parameters) => numberOf(parameters, 'capacity') / numberOf(parameters, 'sensitivity'),
  invert: (y, parameters) =>
    numberOf(parameters, 'zero') +
    (y / numberOf(parameters, 'capacity')) * numberOf(parameters, 'sensitivity'),
  sentence: (x, y, parameters, _companions, { unitOut }) =>
    y === null
      ? `The bridge has no value at ${quantityText(x, 'mV/V')}.`
      : `Bridge: (${numberText(x)} − ${operandText(numberOf(parameters, 'zero'))}) mV/V / ${quantityText(
          numberOf(parameters, 'sensitivity'),
          'mV/V',
        )} × ${quantityText(numberOf(parameters, 'capacity'), unitOut)} = ${quantityText(y, unitOut)}.`,
}

import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf, textOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * A potentiometer as the ratio of its wiper's voltage to the excitation measured at the same time, so that a sagging
 * supply moves nothing. `low` and `high` are the values at the two ends of the track; beyond them is carried on.
 */
export const potentiometer: Step = {
  kind: 'potentiometer',
  formula: stepParameters.potentiometer.formula,
  needs: null,
  unitIn: () => 'V/V',
  unitOut: (parameters) => textOf(parameters, 'unit'),
  apply: (x, parameters) =>
    numberOf(parameters, 'low') + x * (numberOf(parameters, 'high') - numberOf(parameters, 'low')),
  sql: (x, parameter) => `(${parameter('low')} + ${x} * (${parameter('high')} - ${parameter('low')}))`,
  derivative: (_x, parameters) => numberOf(parameters, 'high') - numberOf(parameters, 'low'),
  invert: (y, parameters) =>
    (y - numberOf(parameters, 'low')) / (numberOf(parameters, 'high') - numberOf(parameters, 'low')),
  sentence: (x, y, parameters, _companions, { unitOut }) => {
    const [low, high] = [numberOf(parameters, 'low'), numberOf(parameters, 'high')]
    return y === null
      ? `The potentiometer has no value at ${quantityText(x, 'V/V')}.`
      : `Potentiometer, from ${quantityText(low, unitOut)} to ${quantityText(high, unitOut)} along its track: ${numberText(
          low,
        )} + ${operandText(x)} × (${numberText(high)} − ${operandText(low)}) = ${quantityText(y, unitOut)}.`
  },
}

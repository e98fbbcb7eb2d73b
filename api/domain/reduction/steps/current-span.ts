import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf, textOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/** A 4 to 20 mA loop to the unit of its span; currents outside are carried on, not clipped: small negatives are real. */
export const currentSpan: Step = {
  kind: 'current-span',
  formula: stepParameters['current-span'].formula,
  needs: null,
  unitIn: () => 'mA',
  unitOut: (parameters) => textOf(parameters, 'unit'),
  apply: (x, parameters) =>
    numberOf(parameters, 'low') +
    ((x - 4) / 16) * (numberOf(parameters, 'high') - numberOf(parameters, 'low')),
  sql: (x, parameter) =>
    `(${parameter('low')} + (${x} - ${sqlNumber(4)}) / ${sqlNumber(16)} * (${parameter('high')} - ${parameter('low')}))`,
  derivative: (_x, parameters) => (numberOf(parameters, 'high') - numberOf(parameters, 'low')) / 16,
  invert: (y, parameters) =>
    4 +
    (16 * (y - numberOf(parameters, 'low'))) / (numberOf(parameters, 'high') - numberOf(parameters, 'low')),
  sentence: (x, y, parameters, _companions, { unitOut }) => {
    const [low, high] = [numberOf(parameters, 'low'), numberOf(parameters, 'high')]
    return y === null
      ? `The current loop has no value at ${quantityText(x, 'mA')}.`
      : `Current loop, 4 mA is ${quantityText(low, unitOut)} and 20 mA is ${quantityText(high, unitOut)}: ${numberText(
          low,
        )} + (${numberText(x)} − 4) / 16 × (${numberText(high)} − ${operandText(low)}) = ${quantityText(y, unitOut)}.`
  },
}

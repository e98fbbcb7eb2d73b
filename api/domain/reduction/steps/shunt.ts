import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/** Voltage across a resistor of `ohms` in a current loop to the loop's current in mA; a `current-span` follows. */
export const shunt: Step = {
  kind: 'shunt',
  formula: stepParameters.shunt.formula,
  needs: null,
  unitIn: () => 'V',
  unitOut: () => 'mA',
  apply: (x, parameters) => (1000 * x) / numberOf(parameters, 'ohms'),
  sql: (x, parameter) => `(${sqlNumber(1000)} * ${x} / ${parameter('ohms')})`,
  derivative: (_x, parameters) => 1000 / numberOf(parameters, 'ohms'),
  invert: (y, parameters) => (y * numberOf(parameters, 'ohms')) / 1000,
  sentence: (x, y, parameters) =>
    y === null
      ? `There is no current in the loop for ${quantityText(x, 'V')}.`
      : `Current through the shunt of ${quantityText(numberOf(parameters, 'ohms'), 'Ohm')}: 1000 × ${operandText(
          x,
        )} / ${numberText(numberOf(parameters, 'ohms'))} = ${quantityText(y, 'mA')}.`,
}

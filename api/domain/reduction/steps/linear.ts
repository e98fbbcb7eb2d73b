import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf, textOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/** A straight line from a certificate. `factor` is in the new unit per old one, not 0. */
export const linear: Step = {
  kind: 'linear',
  formula: stepParameters.linear.formula,
  needs: null,
  unitIn: () => null,
  unitOut: (parameters) => textOf(parameters, 'unit'),
  apply: (x, parameters) => numberOf(parameters, 'factor') * x + numberOf(parameters, 'offset'),
  sql: (x, parameter) => `(${parameter('factor')} * ${x} + ${parameter('offset')})`,
  derivative: (_x, parameters) => numberOf(parameters, 'factor'),
  invert: (y, parameters) => (y - numberOf(parameters, 'offset')) / numberOf(parameters, 'factor'),
  sentence: (x, y, parameters, _companions, { unitOut }) =>
    y === null
      ? `The straight line has no value at ${numberText(x)}.`
      : `Straight line: ${numberText(numberOf(parameters, 'factor'))} × ${operandText(x)} + ${operandText(
          numberOf(parameters, 'offset'),
        )} = ${quantityText(y, unitOut)}.`,
}

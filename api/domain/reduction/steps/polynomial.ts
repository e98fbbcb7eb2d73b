import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf, textOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/** A second-order curve from a certificate, evaluated as (c2·x + c1)·x + c0. */
export const polynomial: Step = {
  kind: 'polynomial',
  formula: stepParameters.polynomial.formula,
  needs: null,
  unitIn: () => null,
  unitOut: (parameters) => textOf(parameters, 'unit'),
  apply: (x, parameters) => {
    const { c0, c1, c2 } = coefficients(parameters)
    return (c2 * x + c1) * x + c0
  },
  sql: (x, parameter) => `((${parameter('c2')} * ${x} + ${parameter('c1')}) * ${x} + ${parameter('c0')})`,
  derivative: (x, parameters) => {
    const { c1, c2 } = coefficients(parameters)
    return 2 * c2 * x + c1
  },
  /** The branch whose slope has the sign of c1, which becomes the straight line as c2 goes to 0; c1 = 0: x ≥ 0. */
  invert: (y, parameters) => {
    const { c0, c1, c2 } = coefficients(parameters)
    const constant = c0 - y
    if (c2 === 0) return -constant / c1
    const discriminant = c1 * c1 - 4 * c2 * constant
    if (discriminant < 0) return null
    if (c1 === 0) return Math.sqrt(-constant / c2)
    return (-2 * constant) / (c1 + Math.sign(c1) * Math.sqrt(discriminant))
  },
  sentence: (x, y, parameters, _companions, { unitOut }) => {
    const { c0, c1, c2 } = coefficients(parameters)
    return y === null
      ? `The curve has no value at ${numberText(x)}.`
      : `Second-order curve: ${numberText(c2)} × ${operandText(x)}² + ${operandText(c1)} × ${operandText(
          x,
        )} + ${operandText(c0)} = ${quantityText(y, unitOut)}.`
  },
}

const coefficients = (parameters: Parameters<Step['apply']>[1]) => ({
  c0: numberOf(parameters, 'c0'),
  c1: numberOf(parameters, 'c1'),
  c2: numberOf(parameters, 'c2'),
})

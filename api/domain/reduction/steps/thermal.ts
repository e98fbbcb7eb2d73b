import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * Adds factor · (T − reference), factor in the value's unit per °C, reference the temperature of the zero reading.
 * Without a temperature `apply` gives null and the chain carries x on, marked `temperatureMissing`; so does its SQL.
 */
export const thermal: Step = {
  kind: 'thermal',
  formula: stepParameters.thermal.formula,
  needs: 'temperatureDegC',
  unitIn: () => null,
  unitOut: (_parameters, unitIn) => unitIn,
  apply: (x, parameters, { temperatureDegC }) =>
    temperatureDegC === null
      ? null
      : x + numberOf(parameters, 'factor') * (temperatureDegC - numberOf(parameters, 'reference')),
  sql: (x, parameter, { temperatureDegC }) =>
    `(${x} + coalesce(${parameter('factor')} * (${temperatureDegC} - ${parameter('reference')}), ${sqlNumber(0)}))`,
  derivative: () => 1,
  companionDerivative: (parameters) => numberOf(parameters, 'factor'),
  invert: (y, parameters, { temperatureDegC }) =>
    temperatureDegC === null
      ? null
      : y - numberOf(parameters, 'factor') * (temperatureDegC - numberOf(parameters, 'reference')),
  sentence: (x, y, parameters, { temperatureDegC }, { unitOut }) =>
    temperatureDegC === null || y === null
      ? `No temperature is known at that instant; ${quantityText(x, unitOut)} stands without its thermal term.`
      : `Thermal term for ${quantityText(temperatureDegC, 'Cel')}: ${numberText(x)} + ${operandText(
          numberOf(parameters, 'factor'),
        )} × (${numberText(temperatureDegC)} − ${operandText(numberOf(parameters, 'reference'))}) = ${quantityText(y, unitOut)}.`,
}

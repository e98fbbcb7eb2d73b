import { numberText, operandText, quantityText } from '../number-text.ts'
import { givenOrDefault, numberOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * Thermal term of a wire strain gauge, tension positive. A warmer wire slackens by its own expansion, which is given
 * back; less the structure's expansion what remains is mechanical strain, the part that stress has made. With
 * `structure` left out (0) it is total strain, the part that a scale would see. Coefficients in µm/m per °C,
 * `reference` the temperature of the zero reading. Without a temperature the chain carries x on, marked.
 */
export const strainTemperature: Step = {
  kind: 'strain-temperature',
  formula: stepParameters['strain-temperature'].formula,
  needs: 'temperatureDegC',
  unitIn: () => 'um/m',
  unitOut: () => 'um/m',
  apply: (x, parameters, { temperatureDegC }) =>
    temperatureDegC === null
      ? null
      : x + net(parameters) * (temperatureDegC - numberOf(parameters, 'reference')),
  sql: (x, parameter, { temperatureDegC }) =>
    `(${x} + coalesce((${parameter('wire')} - ${parameter('structure')}) * (${temperatureDegC} - ${parameter('reference')}), ${sqlNumber(0)}))`,
  derivative: () => 1,
  companionDerivative: (parameters) => net(parameters),
  invert: (y, parameters, { temperatureDegC }) =>
    temperatureDegC === null
      ? null
      : y - net(parameters) * (temperatureDegC - numberOf(parameters, 'reference')),
  sentence: (x, y, parameters, { temperatureDegC }) => {
    if (temperatureDegC === null || y === null)
      return `No temperature is known at that instant; ${quantityText(x, 'um/m')} stands without its thermal term.`
    const structure = structureOf(parameters)
    const kind = structure === 0 ? 'Total strain, the wire' : 'Mechanical strain, the wire less the structure'
    const wire = numberText(numberOf(parameters, 'wire'))
    const coefficient =
      structure === 0 ? operandText(numberOf(parameters, 'wire')) : `(${wire} − ${operandText(structure)})`
    return `${kind}, at ${quantityText(temperatureDegC, 'Cel')}: ${numberText(x)} + ${coefficient} × (${numberText(
      temperatureDegC,
    )} − ${operandText(numberOf(parameters, 'reference'))}) = ${quantityText(y, 'um/m')}.`
  },
}

const structureOf = (parameters: Parameters<Step['apply']>[1]): number =>
  givenOrDefault('strain-temperature', parameters, 'structure')

const net = (parameters: Parameters<Step['apply']>[1]): number =>
  numberOf(parameters, 'wire') - structureOf(parameters)

import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf } from '../parameter.ts'
import { sqlNumber, sqlPositive } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'
import { noThermistorSentence, plausibleThermistor, plausibleThermistorSql } from '../thermistor-limits.ts'

const kelvinAt25 = 298.15

/**
 * Resistance of a thermistor in Ω to °C by the two-point model R = r25 · exp(beta (1/T − 1/298.15 K)). Good near the
 * two temperatures of its beta only: on the usual curve a beta of 25 and 50 °C is 1.2 °C off at −20 °C. Null outside
 * −80 to 200 °C, and for a resistance of 0 or less: open or shorted.
 */
export const beta: Step = {
  kind: 'beta',
  formula: stepParameters.beta.formula,
  needs: null,
  unitIn: () => 'Ohm',
  unitOut: () => 'Cel',
  apply: (x, parameters) => plausibleThermistor(1 / inverseKelvin(x, parameters) - 273.15),
  sql: (x, parameter) => {
    const inverse = `(${sqlNumber(1 / kelvinAt25)} + ln(${sqlPositive(`(${x} / ${parameter('r25')})`)}) / ${parameter('beta')})`
    return plausibleThermistorSql(`(${sqlNumber(1)} / ${sqlPositive(inverse)} - ${sqlNumber(273.15)})`)
  },
  isFault: (x, parameters) => beta.apply(x, parameters, noCompanions) === null,
  faultSql: (x, parameter) => `(${x} is not null and ${beta.sql(x, parameter, noCompanionSql)} is null)`,
  derivative: (x, parameters) => {
    const inverse = inverseKelvin(x, parameters)
    return plausibleThermistor(1 / inverse - 273.15) === null
      ? NaN
      : -1 / (inverse * inverse * numberOf(parameters, 'beta') * x)
  },
  invert: (y, parameters) =>
    plausibleThermistor(y) === null
      ? null
      : numberOf(parameters, 'r25') *
        Math.exp(numberOf(parameters, 'beta') * (1 / (y + 273.15) - 1 / kelvinAt25)),
  sentence: (x, y, parameters) => {
    if (y === null) return noThermistorSentence(quantityText(x, 'Ohm'))
    const [r25, b] = [numberOf(parameters, 'r25'), numberOf(parameters, 'beta')]
    const log = Math.log(x / r25)
    return `Thermistor by its beta: ln(${numberText(x)} / ${numberText(r25)}) = ${numberText(log)}; 1 / (1 / 298.15 + ${operandText(
      log,
    )} / ${numberText(b)}) − 273.15 = ${quantityText(y, 'Cel')}.`
  },
}

const noCompanions = { temperatureDegC: null, barometerKpa: null }
const noCompanionSql = { temperatureDegC: 'null', barometerKpa: 'null' }

function inverseKelvin(x: number, parameters: Parameters<Step['apply']>[1]): number {
  const inverse = 1 / kelvinAt25 + Math.log(x / numberOf(parameters, 'r25')) / numberOf(parameters, 'beta')
  return inverse > 0 && inverse < Infinity ? inverse : NaN
}

/** Beta in K of a thermistor that has two resistances in Ω at two temperatures in °C. */
export const betaBetween = (
  [oneOhm, oneDegC]: readonly [number, number],
  [otherOhm, otherDegC]: readonly [number, number],
): number => Math.log(oneOhm / otherOhm) / (1 / (oneDegC + 273.15) - 1 / (otherDegC + 273.15))

import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf } from '../parameter.ts'
import { sqlNumber, sqlPositive } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'
import { noThermistorSentence, plausibleThermistor, plausibleThermistorSql } from '../thermistor-limits.ts'

/**
 * Resistance of a thermistor in Ω to °C (Steinhart & Hart 1968, natural logarithm).
 * Null for a resistance of 0 or less and for temperatures outside −80 to 200 °C: open or shorted.
 */
export const steinhartHart: Step = {
  kind: 'steinhart-hart',
  formula: stepParameters['steinhart-hart'].formula,
  needs: null,
  unitIn: () => 'Ohm',
  unitOut: () => 'Cel',
  apply: (x, parameters) => {
    const inverse = inverseKelvin(x, parameters)
    return inverse > 0 && inverse < Infinity ? plausibleThermistor(1 / inverse - 273.15) : null
  },
  sql: (x, parameter) => {
    const log = `ln(${sqlPositive(x)})`
    const inverse = `(${parameter('a')} + ${log} * (${parameter('b')} + ${parameter('c')} * ${log} * ${log}))`
    return plausibleThermistorSql(`(${sqlNumber(1)} / ${sqlPositive(inverse)} - ${sqlNumber(273.15)})`)
  },
  isFault: (x, parameters) => steinhartHart.apply(x, parameters, noCompanions) === null,
  faultSql: (x, parameter) =>
    `(${x} is not null and ${steinhartHart.sql(x, parameter, noCompanionSql)} is null)`,
  derivative: (x, parameters) => {
    const inverse = inverseKelvin(x, parameters)
    if (!(inverse > 0 && inverse < Infinity) || plausibleThermistor(1 / inverse - 273.15) === null) return NaN
    const log = Math.log(x)
    const slope = (numberOf(parameters, 'b') + 3 * numberOf(parameters, 'c') * log * log) / x
    return -slope / (inverse * inverse)
  },
  invert: (y, parameters) => {
    if (plausibleThermistor(y) === null) return null
    const kelvin = y + 273.15
    const b = numberOf(parameters, 'b')
    const c = numberOf(parameters, 'c')
    const excess = 1 / kelvin - numberOf(parameters, 'a')
    return Math.exp(logOf(excess, b, c))
  },
  sentence: (x, y, parameters) => {
    if (y === null) return noThermistorSentence(quantityText(x, 'Ohm'))
    const [a, b, c] = [numberOf(parameters, 'a'), numberOf(parameters, 'b'), numberOf(parameters, 'c')]
    return `Thermistor: ln ${numberText(x)} = ${numberText(Math.log(x))}; 1 / (${numberText(a)} + ${operandText(
      b,
    )} × ${operandText(Math.log(x))} + ${operandText(c)} × ${operandText(Math.log(x))}³) − 273.15 = ${quantityText(y, 'Cel')}.`
  },
}

const noCompanions = { temperatureDegC: null, barometerKpa: null }
const noCompanionSql = { temperatureDegC: 'null', barometerKpa: 'null' }

function inverseKelvin(x: number, parameters: Parameters<Step['apply']>[1]): number {
  if (!(x > 0 && x < Infinity)) return NaN
  const log = Math.log(x)
  return numberOf(parameters, 'a') + log * (numberOf(parameters, 'b') + numberOf(parameters, 'c') * log * log)
}

/**
 * The root of c L³ + b L = excess by Newton's method. With b > 0 and c ≥ 0 the left side only rises, so there is one
 * root, and from excess / b, which lies beyond it, every step comes closer; Cardano's roots would cancel for small c.
 */
function logOf(excess: number, b: number, c: number): number {
  let log = excess / b
  for (let pass = 0; pass < 60; pass++) {
    const next = log - (log * (b + c * log * log) - excess) / (b + 3 * c * log * log)
    if (next === log) break
    log = next
  }
  return log
}

import { loopCurrentLimits, loopCurrentState } from '../loop-current.ts'
import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf, textOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * A 4 to 20 mA loop to the unit of its span. Currents outside it are carried on, not clipped: small negatives are
 * real. By NE 43 a current of 3.6 mA and below or 21 mA and above is the transmitter's own report of a failure: null.
 */
export const currentSpan: Step = {
  kind: 'current-span',
  formula: stepParameters['current-span'].formula,
  needs: null,
  unitIn: () => 'mA',
  unitOut: (parameters) => textOf(parameters, 'unit'),
  apply: (x, parameters) => (isFault(x) ? null : span(x, parameters)),
  sql: (x, parameter) =>
    `(${parameter('low')} + (case when ${x} > ${sqlNumber(loopCurrentLimits.faultLow)} and ${x} < ${sqlNumber(loopCurrentLimits.faultHigh)} then ${x} end - ${sqlNumber(4)}) / ${sqlNumber(16)} * (${parameter('high')} - ${parameter('low')}))`,
  isFault,
  faultSql: (x) =>
    `(${x} <= ${sqlNumber(loopCurrentLimits.faultLow)} or ${x} >= ${sqlNumber(loopCurrentLimits.faultHigh)})`,
  derivative: (x, parameters) =>
    isFault(x) ? NaN : (numberOf(parameters, 'high') - numberOf(parameters, 'low')) / 16,
  invert: (y, parameters) => {
    const [low, high] = [numberOf(parameters, 'low'), numberOf(parameters, 'high')]
    const milliamps = 4 + (16 * (y - low)) / (high - low)
    return isFault(milliamps) ? null : milliamps
  },
  sentence: (x, y, parameters, _companions, { unitOut }) => {
    if (y === null)
      return `A loop current of ${quantityText(x, 'mA')} is the report of a failure (NE 43: 3.6 mA and below, 21 mA and above), or the loop is open or shorted; no value is made of it.`
    const [low, high] = [numberOf(parameters, 'low'), numberOf(parameters, 'high')]
    return `Current loop${bandOf(x)}, 4 mA is ${quantityText(low, unitOut)} and 20 mA is ${quantityText(high, unitOut)}: ${numberText(
      low,
    )} + (${numberText(x)} − 4) / 16 × (${numberText(high)} − ${operandText(low)}) = ${quantityText(y, unitOut)}.`
  },
}

function isFault(milliamps: number): boolean {
  const state = loopCurrentState(milliamps)
  return state === 'fault-low' || state === 'fault-high'
}

const span = (x: number, parameters: Parameters<Step['apply']>[1]): number =>
  numberOf(parameters, 'low') + ((x - 4) / 16) * (numberOf(parameters, 'high') - numberOf(parameters, 'low'))

/** What the trail says of a current beside the band in which the loop measures. */
function bandOf(milliamps: number): string {
  const state = loopCurrentState(milliamps)
  if (state === 'valid') return ''
  return state === 'undefined-low'
    ? ' below 3.8 mA, in neither the measuring nor the failure band of NE 43, kept'
    : ' above 20.5 mA, in neither the measuring nor the failure band of NE 43, kept'
}

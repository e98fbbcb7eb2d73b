import { numberText, operandText, quantityText } from '../number-text.ts'
import { givenOrDefault, numberOf } from '../parameter.ts'
import { sqlBind, sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * One active resistance gauge in a bridge, mV/V of measured excitation to strain in µm/m, tension positive, with the
 * bridge's own non-linearity. `sense` says which way the bridge is wired: 1 where its output rises in tension, −1
 * where it falls. Null at half the excitation and beyond, which no gauge can give.
 */
export const quarterBridge: Step = {
  kind: 'quarter-bridge',
  formula: stepParameters['quarter-bridge'].formula,
  needs: null,
  unitIn: () => 'mV/V',
  unitOut: () => 'um/m',
  apply: (x, parameters) => {
    const { gaugeFactor, sense, zero } = bridge(parameters)
    const r = (sense * (x - zero)) / 1000
    return 1 - 2 * r > 0 ? (4e6 * r) / (gaugeFactor * (1 - 2 * r)) : null
  },
  sql: (x, parameter) =>
    sqlBind(
      `(${parameter('sense')} * (${x} - ${parameter('zero')}) / ${sqlNumber(1000)})`,
      'step_r',
      `case when ${sqlNumber(1)} - ${sqlNumber(2)} * step_r > 0 then ${sqlNumber(4e6)} * step_r / (${parameter('gaugeFactor')} * (${sqlNumber(1)} - ${sqlNumber(2)} * step_r)) end`,
    ),
  derivative: (x, parameters) => {
    const { gaugeFactor, sense, zero } = bridge(parameters)
    const left = 1 - (2 * sense * (x - zero)) / 1000
    return left > 0 ? (4000 * sense) / (gaugeFactor * left * left) : NaN
  },
  invert: (y, parameters) => {
    const { gaugeFactor, sense, zero } = bridge(parameters)
    const change = (gaugeFactor * y) / 1e6
    return 4 + 2 * change > 0 ? zero + (1000 * sense * change) / (4 + 2 * change) : null
  },
  sentence: (x, y, parameters) => {
    if (y === null) return `No single gauge gives ${quantityText(x, 'mV/V')}; a lead is broken or shorted.`
    const { gaugeFactor, sense, zero } = bridge(parameters)
    const r = (sense * (x - zero)) / 1000
    const sign = sense < 0 ? '−1 × ' : ''
    return `Quarter bridge: ${sign}(${numberText(x)} − ${operandText(zero)}) / 1000 = ${numberText(r)}; 4 000 000 × ${operandText(
      r,
    )} / (${numberText(gaugeFactor)} × (1 − 2 × ${operandText(r)})) = ${quantityText(y, 'um/m')}.`
  },
}

const bridge = (parameters: Parameters<Step['apply']>[1]) => ({
  gaugeFactor: numberOf(parameters, 'gaugeFactor'),
  sense: numberOf(parameters, 'sense'),
  zero: givenOrDefault('quarter-bridge', parameters, 'zero'),
})

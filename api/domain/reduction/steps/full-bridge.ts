import { numberText, operandText, quantityText } from '../number-text.ts'
import { givenOrDefault, numberOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * A full bridge of resistance gauges, mV/V of measured excitation to strain in µm/m. `activeArms` is the sum of the
 * arms' shares of that strain: 4 where all four feel it in full, 2 (1 + ν) where two lie across it. Linear, for in a
 * full bridge the arms' changes cancel in the supply. A bridge wired the other way round has a negative gauge factor.
 */
export const fullBridge: Step = {
  kind: 'full-bridge',
  formula: stepParameters['full-bridge'].formula,
  needs: null,
  unitIn: () => 'mV/V',
  unitOut: () => 'um/m',
  apply: (x, parameters) => {
    const { gaugeFactor, activeArms, zero } = bridge(parameters)
    return (4000 * (x - zero)) / (activeArms * gaugeFactor)
  },
  sql: (x, parameter) =>
    `(${sqlNumber(4000)} * (${x} - ${parameter('zero')}) / (${parameter('activeArms')} * ${parameter('gaugeFactor')}))`,
  derivative: (_x, parameters) => {
    const { gaugeFactor, activeArms } = bridge(parameters)
    return 4000 / (activeArms * gaugeFactor)
  },
  invert: (y, parameters) => {
    const { gaugeFactor, activeArms, zero } = bridge(parameters)
    return zero + (y * activeArms * gaugeFactor) / 4000
  },
  sentence: (x, y, parameters) => {
    const { gaugeFactor, activeArms, zero } = bridge(parameters)
    return y === null
      ? `The bridge has no value at ${quantityText(x, 'mV/V')}.`
      : `Full bridge of ${numberText(activeArms)} active arms: 4000 × (${numberText(x)} − ${operandText(zero)}) / (${numberText(
          activeArms,
        )} × ${operandText(gaugeFactor)}) = ${quantityText(y, 'um/m')}.`
  },
}

const bridge = (parameters: Parameters<Step['apply']>[1]) => ({
  gaugeFactor: numberOf(parameters, 'gaugeFactor'),
  activeArms: givenOrDefault('full-bridge', parameters, 'activeArms'),
  zero: givenOrDefault('full-bridge', parameters, 'zero'),
})

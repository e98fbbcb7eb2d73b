import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf, textOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/** A voltage to the unit of its span, from lowVolts = low to highVolts = high; outside it is carried on, not clipped. */
export const voltageSpan: Step = {
  kind: 'voltage-span',
  formula: stepParameters['voltage-span'].formula,
  needs: null,
  unitIn: () => 'V',
  unitOut: (parameters) => textOf(parameters, 'unit'),
  apply: (x, parameters) => {
    const { low, high, lowVolts, highVolts } = span(parameters)
    return low + ((x - lowVolts) / (highVolts - lowVolts)) * (high - low)
  },
  sql: (x, parameter) =>
    `(${parameter('low')} + (${x} - ${parameter('lowVolts')}) / (${parameter('highVolts')} - ${parameter('lowVolts')}) * (${parameter('high')} - ${parameter('low')}))`,
  derivative: (_x, parameters) => {
    const { low, high, lowVolts, highVolts } = span(parameters)
    return (high - low) / (highVolts - lowVolts)
  },
  invert: (y, parameters) => {
    const { low, high, lowVolts, highVolts } = span(parameters)
    return lowVolts + ((y - low) / (high - low)) * (highVolts - lowVolts)
  },
  sentence: (x, y, parameters, _companions, { unitOut }) => {
    const { low, high, lowVolts, highVolts } = span(parameters)
    return y === null
      ? `The voltage span has no value at ${quantityText(x, 'V')}.`
      : `Voltage, ${quantityText(lowVolts, 'V')} is ${quantityText(low, unitOut)} and ${quantityText(highVolts, 'V')} is ${quantityText(
          high,
          unitOut,
        )}: ${numberText(low)} + (${numberText(x)} − ${operandText(lowVolts)}) / (${numberText(highVolts)} − ${operandText(
          lowVolts,
        )}) × (${numberText(high)} − ${operandText(low)}) = ${quantityText(y, unitOut)}.`
  },
}

const span = (parameters: Parameters<Step['apply']>[1]) => ({
  low: numberOf(parameters, 'low'),
  high: numberOf(parameters, 'high'),
  lowVolts: numberOf(parameters, 'lowVolts'),
  highVolts: numberOf(parameters, 'highVolts'),
})

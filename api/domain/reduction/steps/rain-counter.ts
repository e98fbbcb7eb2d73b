import { numberText, operandText, quantityText } from '../number-text.ts'
import { givenOrDefault, numberOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * Tips of a bucket since the reading before to mm of rain. A counter that only goes up must be differenced before it
 * is read here: a chain sees one reading at a time, and a back-filled one may come between two others. A difference
 * taken across the counter's roll-over is negative; where `rollsOverAt` states how many tips it can tell apart,
 * they are added back. A count that is still negative is no count: null, not rain taken away.
 */
export const rainCounter: Step = {
  kind: 'rain-counter',
  formula: stepParameters['rain-counter'].formula,
  needs: null,
  unitIn: () => '{count}',
  unitOut: () => 'mm',
  apply: (x, parameters) => {
    const tips = tipsOf(x, parameters)
    return tips >= 0 ? tips * numberOf(parameters, 'mmPerTip') : null
  },
  sql: (x, parameter) =>
    `(case when ${x} >= 0 then ${x} when ${x} + ${parameter('rollsOverAt')} >= 0 then ${x} + ${parameter('rollsOverAt')} end * ${parameter('mmPerTip')})`,
  derivative: (x, parameters) => (tipsOf(x, parameters) >= 0 ? numberOf(parameters, 'mmPerTip') : NaN),
  /** Without a roll-over. */
  invert: (y, parameters) => (y >= 0 ? y / numberOf(parameters, 'mmPerTip') : null),
  sentence: (x, y, parameters) => {
    if (y === null) return `${numberText(x)} is no count of tips; no rain is made of it.`
    const mmPerTip = numberText(numberOf(parameters, 'mmPerTip'))
    return x >= 0
      ? `Rain since the reading before: ${numberText(x)} × ${mmPerTip} = ${quantityText(y, 'mm')}.`
      : `The counter rolled over between the readings. Rain since the reading before: (${numberText(x)} + ${operandText(
          rollOf(parameters),
        )}) × ${mmPerTip} = ${quantityText(y, 'mm')}.`
  },
}

const rollOf = (parameters: Parameters<Step['apply']>[1]): number =>
  givenOrDefault('rain-counter', parameters, 'rollsOverAt')

const tipsOf = (x: number, parameters: Parameters<Step['apply']>[1]): number =>
  x >= 0 ? x : x + rollOf(parameters)

import { operandText, quantityText } from '../number-text.ts'
import { numberOf } from '../parameter.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * Tilt from the vertical in degrees to the offset in mm over a gauge length in m. Movement is the change of
 * this offset, L·(sin θ − sin θ₀), so a `zero` belongs after it, not before. Beyond ±180° it is no tilt but an
 * error code, of which the sine would be a calm-looking number: null.
 */
export const gaugeLengthSine: Step = {
  kind: 'gauge-length-sine',
  formula: stepParameters['gauge-length-sine'].formula,
  needs: null,
  unitIn: () => 'deg',
  unitOut: () => 'mm',
  apply: (x, parameters) =>
    Math.abs(x) <= largestTilt ? 1000 * numberOf(parameters, 'length') * Math.sin((x * Math.PI) / 180) : null,
  sql: (x, parameter) =>
    `(${sqlNumber(1000)} * ${parameter('length')} * sin(case when abs(${x}) <= ${largestTilt} then ${x} end * ${sqlNumber(Math.PI)} / ${sqlNumber(180)}))`,
  derivative: (x, parameters) =>
    Math.abs(x) <= largestTilt
      ? ((1000 * numberOf(parameters, 'length') * Math.PI) / 180) * Math.cos((x * Math.PI) / 180)
      : NaN,
  /** The tilt within ±90° that gives the offset. */
  invert: (y, parameters) => {
    const sine = y / (1000 * numberOf(parameters, 'length'))
    return Math.abs(sine) <= 1 ? (Math.asin(sine) * 180) / Math.PI : null
  },
  sentence: (x, y, parameters) =>
    y === null
      ? `${quantityText(x, 'deg')} is no tilt; it is an error code or a wrong coefficient, and no offset is made of it.`
      : `Offset over the gauge length: 1000 × ${quantityText(numberOf(parameters, 'length'), 'm')} × sin ${operandText(
          x,
        )}° = ${quantityText(y, 'mm')}.`,
}

const largestTilt = 180

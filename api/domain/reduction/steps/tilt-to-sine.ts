import { operandText, quantityText } from '../number-text.ts'
import { sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * Tilt from the vertical in degrees to mm/m: a thousand times its sine, as an offset over a metre along the casing or
 * beam. A change of it is what a beam of any length is multiplied with. Beyond ±180° it is an error code: null.
 */
export const tiltToSine: Step = {
  kind: 'tilt-to-sine',
  formula: stepParameters['tilt-to-sine'].formula,
  needs: null,
  unitIn: () => 'deg',
  unitOut: () => 'mm/m',
  apply: (x) => (Math.abs(x) <= 180 ? 1000 * Math.sin((x * Math.PI) / 180) : null),
  sql: (x) =>
    `(${sqlNumber(1000)} * sin(case when abs(${x}) <= 180 then ${x} end * ${sqlNumber(Math.PI)} / ${sqlNumber(180)}))`,
  derivative: (x) => (Math.abs(x) <= 180 ? ((1000 * Math.PI) / 180) * Math.cos((x * Math.PI) / 180) : NaN),
  /** The tilt within ±90° that gives it. */
  invert: (y) => (Math.abs(y) <= 1000 ? (Math.asin(y / 1000) * 180) / Math.PI : null),
  sentence: (x, y) =>
    y === null
      ? `${quantityText(x, 'deg')} is no tilt; it is an error code or a wrong coefficient, and no slope is made of it.`
      : `Tilt as a slope: 1000 × sin ${operandText(x)}° = ${quantityText(y, 'mm/m')}.`,
}

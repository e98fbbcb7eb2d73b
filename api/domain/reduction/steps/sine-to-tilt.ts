import { numberText, quantityText } from '../number-text.ts'
import { sqlBind, sqlNumber } from '../sql-number.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * The sine of a tilt, as a tilt sensor that balances gravity gives it (mm/m: a thousand times the sine), to degrees;
 * a unit step goes on to arc seconds. Its temperature term, in mm/m per °C, is a `thermal` before it. Beyond
 * ±1000 mm/m there is no angle: null.
 */
export const sineToTilt: Step = {
  kind: 'sine-to-tilt',
  formula: stepParameters['sine-to-tilt'].formula,
  needs: null,
  unitIn: () => 'mm/m',
  unitOut: () => 'deg',
  apply: (x) => (Math.abs(x) <= 1000 ? (Math.asin(x / 1000) * 180) / Math.PI : null),
  // asin raises an error outside ±1, so what is outside must be null before it.
  sql: (x) =>
    sqlBind(
      `(${x} / ${sqlNumber(1000)})`,
      'step_s',
      `(asin(case when abs(step_s) <= 1 then step_s end) * ${sqlNumber(180)} / ${sqlNumber(Math.PI)})`,
    ),
  derivative: (x) => (Math.abs(x) <= 1000 ? 180 / Math.PI / Math.sqrt(1e6 - x * x) : NaN),
  invert: (y) => (Math.abs(y) <= 90 ? 1000 * Math.sin((y * Math.PI) / 180) : null),
  sentence: (x, y) =>
    y === null
      ? `${quantityText(x, 'mm/m')} is more than the sine of any angle; no tilt is made of it.`
      : `Tilt whose sine it is: arcsin(${numberText(x)} / 1000) = ${quantityText(y, 'deg')}.`,
}

import { numberText, operandText, quantityText } from '../number-text.ts'
import { numberOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * Takes the change of air pressure since the zero reading out of an unvented sensor. B and reference are
 * station pressures in kPa, never reduced to sea level. Without a barometer there is no value.
 */
export const barometric: Step = {
  kind: 'barometric',
  formula: stepParameters.barometric.formula,
  needs: 'barometerKpa',
  unitIn: () => 'kPa',
  unitOut: () => 'kPa',
  apply: (x, parameters, { barometerKpa }) =>
    barometerKpa === null ? null : x - (barometerKpa - numberOf(parameters, 'reference')),
  sql: (x, parameter, { barometerKpa }) => `(${x} - (${barometerKpa} - ${parameter('reference')}))`,
  derivative: () => 1,
  companionDerivative: () => -1,
  invert: (y, parameters, { barometerKpa }) =>
    barometerKpa === null ? null : y + (barometerKpa - numberOf(parameters, 'reference')),
  sentence: (x, y, parameters, { barometerKpa }) =>
    barometerKpa === null || y === null
      ? `No barometer reading within ${quantityText(numberOf(parameters, 'maximumAgeMinutes'), 'min')} before it; the reading cannot be corrected for air pressure and no value is made.`
      : `Air pressure ${quantityText(barometerKpa, 'kPa')} against ${quantityText(
          numberOf(parameters, 'reference'),
          'kPa',
        )} at the zero reading: ${numberText(x)} − (${numberText(barometerKpa)} − ${operandText(
          numberOf(parameters, 'reference'),
        )}) = ${quantityText(y, 'kPa')}.`,
}

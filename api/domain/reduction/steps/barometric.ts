import { standardPressureAbove, standardPressureAboveSql, standardPressureSlope } from '../atmosphere.ts'
import type { StepParameters } from '../chain.ts'
import { numberText, operandText, quantityText } from '../number-text.ts'
import { givenOrDefault, numberOf } from '../parameter.ts'
import type { Step } from '../step.ts'
import { stepParameters } from '../step-parameters.ts'

/**
 * Takes the change of air pressure since the zero reading out of an unvented sensor. B and reference are station
 * pressures in kPa of one barometer, never reduced to sea level; `reference` is 0 for a sensor whose zero is a vacuum.
 * `riseMetres` carries both from the barometer up to the sensor's reference level by the standard atmosphere.
 * `efficiency` is the share of the change that the sensor feels, 1 under open water, less in confined ground: it is
 * 1 − the barometric efficiency of a well there. Without a barometer there is no value.
 */
export const barometric: Step = {
  kind: 'barometric',
  formula: stepParameters.barometric.formula,
  needs: 'barometerKpa',
  unitIn: () => 'kPa',
  unitOut: () => 'kPa',
  apply: (x, parameters, { barometerKpa }) => {
    const change = changeKpa(parameters, barometerKpa)
    return change === null ? null : x - efficiencyOf(parameters) * change
  },
  sql: (x, parameter, { barometerKpa }) => {
    const carried = (pressure: string) => standardPressureAboveSql(pressure, parameter('riseMetres'))
    return `(${x} - ${parameter('efficiency')} * (${carried(barometerKpa)} - ${carried(parameter('reference'))}))`
  },
  derivative: () => 1,
  companionDerivative: (parameters, { barometerKpa }) =>
    barometerKpa === null
      ? 0
      : -efficiencyOf(parameters) * standardPressureSlope(barometerKpa, riseOf(parameters)),
  invert: (y, parameters, { barometerKpa }) => {
    const change = changeKpa(parameters, barometerKpa)
    return change === null ? null : y + efficiencyOf(parameters) * change
  },
  sentence: (x, y, parameters, { barometerKpa }) => {
    if (barometerKpa === null)
      return `No barometer reading within ${quantityText(numberOf(parameters, 'maximumAgeMinutes'), 'min')} before it; the reading cannot be corrected for air pressure and no value is made.`
    const [rise, reference] = [riseOf(parameters), numberOf(parameters, 'reference')]
    const up = standardPressureAbove(barometerKpa, rise)
    const referenceUp = standardPressureAbove(reference, rise)
    if (y === null || up === null || referenceUp === null)
      return `The barometer says ${quantityText(barometerKpa, 'kPa')}, with which no correction for air pressure can be made.`
    const efficiency = efficiencyOf(parameters)
    const moved =
      rise === 0
        ? ''
        : `, carried ${numberText(Math.abs(rise))} m ${rise > 0 ? 'up' : 'down'} to the sensor's level by the standard atmosphere (ISO 2533) to ${quantityText(up, 'kPa')} against ${quantityText(referenceUp, 'kPa')}`
    const felt = efficiency === 1 ? '' : `, of whose change the sensor feels ${numberText(efficiency)}`
    const factor = efficiency === 1 ? '' : `${numberText(efficiency)} × `
    return `Air pressure ${quantityText(barometerKpa, 'kPa')} against ${quantityText(reference, 'kPa')} at the zero reading${moved}${felt}: ${numberText(
      x,
    )} − ${factor}(${numberText(up)} − ${operandText(referenceUp)}) = ${quantityText(y, 'kPa')}.`
  },
}

const efficiencyOf = (parameters: StepParameters): number =>
  givenOrDefault('barometric', parameters, 'efficiency')

const riseOf = (parameters: StepParameters): number => givenOrDefault('barometric', parameters, 'riseMetres')

/** Change of air pressure at the sensor's level; null without a barometer, or where there is no such air. */
function changeKpa(parameters: StepParameters, barometerKpa: number | null): number | null {
  if (barometerKpa === null) return null
  const now = standardPressureAbove(barometerKpa, riseOf(parameters))
  const then = standardPressureAbove(numberOf(parameters, 'reference'), riseOf(parameters))
  return now === null || then === null ? null : now - then
}

import { convert, findUnit, isSameUnit } from '../units.ts'
import { quantityText } from './number-text.ts'
import { secondsOfSlope, tangentSlopeMmPerM } from './tilt-slope.ts'
import type { TrailStep } from './trail-step.ts'

/**
 * A tilt in the other ways in which people read one, mm/m and seconds of arc, as lines of its trail: a slope is the
 * tangent of its angle. None for a unit that is neither.
 */
export function tiltLines(
  value: number,
  unit: string,
  standardUncertainty: number | null,
): readonly TrailStep[] {
  const seconds = secondsOf(value, unit)
  const slope = slopeOf(value, unit)
  if (seconds === null || slope === null) return []
  const line = (kind: string, output: number, outputUnit: string, formula: string): TrailStep => ({
    kind,
    formula,
    sentence: `The same in ${outputUnit === "''" ? 'seconds of arc' : 'millimetres in a metre'}: ${quantityText(Number(output.toPrecision(6)), outputUnit)}.`,
    input: value,
    inputUnit: unit,
    output,
    outputUnit,
    // To first order the three are proportional.
    standardUncertainty:
      standardUncertainty === null || value === 0 ? null : Math.abs((standardUncertainty * output) / value),
  })
  return [
    ...(isSameUnit(unit, 'mm/m') ? [] : [line('tilt-as-slope', slope, 'mm/m', 'i = tan τ')]),
    ...(isSameUnit(unit, "''") ? [] : [line('tilt-as-seconds', seconds, "''", 'τ = arctan i')]),
  ]
}

function secondsOf(value: number, unit: string): number | null {
  if (findUnit(unit)?.dimension === 'angle') return inUnit(value, unit, "''")
  const slope = inUnit(value, unit, 'mm/m')
  return slope === null ? null : secondsOfSlope(slope, 'tangent')
}

function slopeOf(value: number, unit: string): number | null {
  const degrees = inUnit(value, unit, 'deg')
  return degrees === null ? inUnit(value, unit, 'mm/m') : tangentSlopeMmPerM(degrees)
}

function inUnit(value: number, from: string, to: string): number | null {
  const outcome = convert(value, from, to)
  return outcome.ok ? outcome.value : null
}

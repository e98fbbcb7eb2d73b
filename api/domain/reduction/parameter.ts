import { assert } from '../assert.ts'
import type { StepParameters } from './chain.ts'

/** A number that `read-calibration.ts` has already checked to be there. */
export function numberOf(parameters: StepParameters, name: string): number {
  const value = parameters[name]
  assert(typeof value === 'number' && Number.isFinite(value), `step parameter ${name} is a number: ${value}`)
  return value
}

/** A text that `read-calibration.ts` has already checked to be there. */
export function textOf(parameters: StepParameters, name: string): string {
  const value = parameters[name]
  assert(typeof value === 'string' && value !== '', `step parameter ${name} is a text: ${value}`)
  return value
}

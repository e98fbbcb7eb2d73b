import { assert } from '../assert.ts'
import type { StepKind } from '../site/vocabulary.ts'
import type { StepParameters } from './chain.ts'
import { stepParameters } from './step-parameters.ts'

/** A number that `parse-step-parameters.ts` has already checked to be there. */
export function numberOf(parameters: StepParameters, name: string): number {
  const value = parameters[name]
  assert(typeof value === 'number' && Number.isFinite(value), `step parameter ${name} is a number: ${value}`)
  return value
}

/** A number of a step of a kind; where it may be left out and was, the value that then holds. */
export const givenOrDefault = (kind: StepKind, parameters: StepParameters, name: string): number =>
  name in parameters ? numberOf(parameters, name) : numberOf(stepParameters[kind].optional ?? {}, name)

/** A text that `parse-step-parameters.ts` has already checked to be there. */
export function textOf(parameters: StepParameters, name: string): string {
  const value = parameters[name]
  assert(typeof value === 'string' && value !== '', `step parameter ${name} is a text: ${value}`)
  return value
}

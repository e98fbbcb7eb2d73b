import type { CalibrationStep } from '../reduction/chain.ts'
import { numberText } from '../reduction/number-text.ts'
import { parseStepParameters } from '../reduction/parse-step-parameters.ts'
import type { StepText } from './correction.ts'

/** A step as its row is written; its numbers in full, so that they are read back as they were. */
export const stepText = ({ kind, parameters }: CalibrationStep): StepText => ({
  kind,
  parameters: Object.entries(parameters)
    .map(([name, value]) => `${name}=${value}`)
    .join('; '),
})

/** Whether two chains are the same steps with the same parameters, however they are written. */
export const isSameChain = (one: readonly StepText[], other: readonly StepText[]): boolean =>
  JSON.stringify(one.map(plain)) === JSON.stringify(other.map(plain))

/** Steps in which two chains differ, by their place from 0; a chain that ends earlier has none there. */
export const differingSteps = (one: readonly StepText[], other: readonly StepText[]): readonly number[] =>
  [...Array(Math.max(one.length, other.length)).keys()].filter(
    (at) => JSON.stringify(plain(one[at])) !== JSON.stringify(plain(other[at])),
  )

/** A step of a chain as people read it: `step 2, zero: value 0.4`; only parameters that the other has otherwise. */
export function stepSentence(own: StepText | undefined, other: StepText | undefined, at: number): string {
  if (!own) return `no step ${at + 1}`
  const beside = other?.kind === own.kind ? new Map(pairsOf(other)) : null
  const told = pairsOf(own).filter(([name, value]) => beside === null || beside.get(name) !== value)
  const text = told.map(([name, value]) => `${name} ${typeof value === 'number' ? numberText(value) : value}`)
  return `step ${at + 1}, ${own.kind}${text.length > 0 ? `: ${text.join(', ')}` : ''}`
}

const plain = (step: StepText | undefined) => (step ? [step.kind, ...pairsOf(step)] : null)

/** Parameters by name, those that cannot be read as they are written. */
function pairsOf({ kind, parameters }: StepText): readonly (readonly [string, number | string])[] {
  const read = parseStepParameters(kind, parameters)
  if (!read.ok) return [['', parameters]]
  return Object.entries(read.value).toSorted(([one], [other]) => (one < other ? -1 : one > other ? 1 : 0))
}

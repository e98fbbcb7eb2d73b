import { isSameChain, stepText } from '../corrections/step-text.ts'
import { groupBy } from '../group-by.ts'
import type { Issue } from '../outcome.ts'
import type { CalibrationStep } from '../reduction/chain.ts'
import { givenOrDefault } from '../reduction/parameter.ts'
import { coefficientNames } from '../reduction/step-parameters.ts'
import { formatInstant } from '../site/instant-text.ts'
import type { StepKind } from '../site/vocabulary.ts'
import { linksWithin } from './edit-links.ts'
import type { SandboxChange } from './sandbox-change.ts'
import type { SandboxRecipe } from './sandbox-recipe.ts'

/**
 * That a change of a chain goes on into another chain of its series, which has a zero of its own: said beside where the change
 * ends, by the first series and the first chain of which it is so. Empty: it stays within one, or changes nothing of the others.
 */
export function otherChains(
  official: SandboxRecipe,
  change: SandboxChange,
  number: number,
): readonly Issue[] {
  const inForce = linksWithin(official.links, change).flatMap((link) =>
    link.steps === null ? [] : [{ ...link, steps: link.steps }],
  )
  const begun = [...groupBy(inForce, ({ series }) => series)].flatMap(([series, own]) => {
    const [first, ...later] = own.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs)
    const other = later.find(({ steps }) => !isSame(first?.steps ?? [], steps) && goesInto(change, steps))
    return other ? [{ series, fromEpochMs: other.fromEpochMs }] : []
  })
  const [one, ...more] = begun
  if (!one) return []
  const beside = more.length === 0 ? '' : ` So it is with ${more.length} more series.`
  return [
    {
      code: 'another-chain-begins',
      column: `${number}.until`,
      value: one.series,
      message: `Another chain of ${one.series}, with a zero of its own, begins at ${formatInstant(one.fromEpochMs)}: this goes into that one too, and is offered for each by itself. End it there if it is meant for the first alone.${beside}`,
    },
  ]
}

type Chain = readonly CalibrationStep[]

const isSame = (one: Chain, other: Chain) => isSameChain(one.map(stepText), other.map(stepText))

/** Whether a change would make another chain of one. */
function goesInto(change: SandboxChange, steps: Chain): boolean {
  const has = (kind: StepKind, numbers: Readonly<Record<string, number | null>>) => {
    const step = steps.find((one) => one.kind === kind)
    return (
      step !== undefined &&
      Object.entries(numbers).every(
        ([name, value]) => value === null || givenOrDefault(kind, step.parameters, name) === value,
      )
    )
  }
  switch (change.kind) {
    case 'zero':
      return true
    case 'coefficient': {
      const step = steps[change.step - 1]
      // Another change may have moved the steps: then this number is not that of the chain on record.
      return (
        step !== undefined &&
        coefficientNames(step.kind).includes(change.name) &&
        givenOrDefault(step.kind, step.parameters, change.name) !== change.value
      )
    }
    case 'thermal':
      return !has('thermal', { factor: change.factorPerDegC, reference: change.referenceDegC })
    case 'barometer':
      return change.barometer === null
        ? has('barometric', {})
        : !has('barometric', { efficiency: change.share, reference: change.referenceKpa })
    default:
      return false
  }
}

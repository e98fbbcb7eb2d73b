import type { Issue } from '../outcome.ts'
import { formatInstant } from '../site/instant-text.ts'
import { loggersOf } from './edit-clock.ts'
import type { SandboxChange } from './sandbox-change.ts'
import type { SandboxRecipe } from './sandbox-recipe.ts'

/** That a clock ends sooner than it is said to, where another record of it begins: told beside its end. Empty: it does not. */
export function otherClocks(
  official: SandboxRecipe,
  change: SandboxChange,
  number: number,
): readonly Issue[] {
  if (change.kind !== 'clock') return []
  return [...loggersOf(official, change)].flatMap((logger) => {
    const recorded = official.clocks?.find((one) => one.logger === logger)?.settings ?? []
    const next = recorded.find(({ fromEpochMs }) => fromEpochMs > change.fromEpochMs)
    if (!next || next.fromEpochMs >= (change.untilEpochMs ?? Number.POSITIVE_INFINITY)) return []
    return [
      {
        code: 'another-clock-begins',
        column: `${number}.until`,
        value: logger,
        message: `Another record of the clock of ${logger} begins at the stamp ${formatInstant(next.fromEpochMs)}, and this ends there. Add another change from there on if that record is wrong too.`,
      },
    ]
  })
}

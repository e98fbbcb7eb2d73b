import { expect, test } from 'vitest'
import { bestChange } from '#domain/review/best-change.ts'
import { accountOf, shapeOfChange } from '#domain/review/change-account.ts'
import { randomFrom } from '../statistics/random-values.ts'

/** Every beginning with three values on either side, and every length tried, accounted for in full. */
function byTrying(at: readonly number[], values: readonly number[]) {
  const tried = at.slice(3, at.length - 2).flatMap((beganAtStep) =>
    [1, ...[0.25, 0.5, 0.75, 1].map((share) => Math.ceil(share * ((at.at(-1) ?? 0) - beganAtStep + 1)))].map(
      (lastedSteps) => {
        const form = { beganAtStep, lastedSteps }
        return { form, squares: accountOf(shapeOfChange(at, form), values).squares }
      },
    ),
  )
  return tried.reduce((one, other) => (other.squares < one.squares ? other : one)).form
}

test('the quick search finds what trying every change in full finds, with gaps and flickers', () => {
  for (let seed = 1; seed <= 120; seed++) {
    const { uniform, gaussian } = randomFrom(seed)
    const at = Array.from({ length: 20 + seed }, (_, step) => step).filter(() => uniform() > 0.2)
    const coarse = seed % 3 === 0
    const values = at.map((step) => {
      const value = gaussian() + (seed % 2) * Math.max(0, step - 12) * 0.3 + 1e4
      return coarse ? Math.round(value) : value
    })
    expect(bestChange(at, values)).toEqual(byTrying(at, values))
  }
})

test('values that never differ, and too few, leave nothing to choose', () => {
  const at = Array.from({ length: 12 }, (_, step) => step)
  expect(
    bestChange(
      at,
      at.map(() => 5),
    ),
  ).toEqual({ beganAtStep: 3, lastedSteps: 1 })
  expect(bestChange([0, 1, 2, 3, 4], [1, 2, 3, 4, 5])).toBeNull()
})

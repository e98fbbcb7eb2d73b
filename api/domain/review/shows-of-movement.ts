import { accountOf, independentCount, shapeOfChange, valuesThere } from './change-account.ts'
import type { Movement } from './movement.ts'

const fewestSteps = 8

/**
 * How much of a movement of another series this one shows: the least-squares size of a change of the same form in time, with its
 * standard error as of `findMovement`. Null with fewer than eight values, or where none lies on one side of it.
 */
export function showsOfMovement(
  series: Float64Array,
  form: Pick<Movement, 'beganAtStep' | 'lastedSteps'>,
  leastScatter: number,
): { readonly size: number; readonly standardError: number } | null {
  const { at, values } = valuesThere(series)
  if (at.length < fewestSteps || form.lastedSteps < 1) return null
  const account = accountOf(shapeOfChange(at, form), values)
  if (account.unitError === 0) return null
  const scatter = Math.max(leastScatter, Math.sqrt(account.squares / Math.max(1, values.length - 2)))
  const spread = Math.sqrt(values.length / Math.max(2, independentCount(account.rest)))
  return {
    size: account.slope * form.lastedSteps,
    standardError: scatter * account.unitError * form.lastedSteps * spread,
  }
}

/** What is left of the values of a series beside a movement of it, in order, gaps left out; null where it shows none. */
export function restOfMovement(series: Float64Array, movement: Movement | null): readonly number[] | null {
  if (movement === null || movement.kind === 'none') return null
  const { at, values } = valuesThere(series)
  return accountOf(shapeOfChange(at, movement), values).rest
}

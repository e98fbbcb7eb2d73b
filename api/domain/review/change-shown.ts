import type { Movement } from './movement.ts'
import { showsOfMovement } from './shows-of-movement.ts'

/** A change with its 95 % interval, in the unit of the values. */
export interface ChangeShown {
  readonly size: number
  readonly low: number
  readonly high: number
}

/**
 * What values did: their movement, or where none is told from chance what a steady change over the whole stretch comes to. Null
 * where too little is there: no change told is never a change of 0 that is known to the last digit.
 */
export function changeShown(
  values: Float64Array,
  movement: Movement | null,
  leastScatter: number,
): ChangeShown | null {
  if (movement === null) return null
  const read = [...values.keys()].filter((step) => Number.isFinite(values[step]))
  const [first = 0, last = 0] = [read[0], read.at(-1)]
  const told =
    movement.kind === 'none'
      ? showsOfMovement(
          values,
          { beganAtStep: first + 1, lastedSteps: Math.max(1, last - first) },
          leastScatter,
        )
      : movement
  return (
    told && {
      size: told.size,
      low: told.size - 1.96 * told.standardError,
      high: told.size + 1.96 * told.standardError,
    }
  )
}

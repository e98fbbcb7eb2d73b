import { normalQuantile } from '../statistics/normal-quantile.ts'
import { changeInterval } from './change-interval.ts'
import type { Movement } from './movement.ts'
import { showsOfMovement } from './shows-of-movement.ts'

/** A change with its 95 % interval, in the unit of the values. */
export interface ChangeShown {
  readonly size: number
  readonly low: number
  readonly high: number
  /** Values that it was found in. */
  readonly steps: number
  /** False: no movement is told from chance, and this is what a steady change over the whole stretch comes to. */
  readonly isTold: boolean
}

/**
 * What values did: their movement, or where none is told from chance what a steady change over the whole stretch comes to. Null
 * where too little is there: no change told is never a change of 0 that is known to the last digit.
 */
export function changeShown(
  values: Float64Array,
  movement: Movement | null,
  leastScatter: number,
  confidence = 0.95,
): ChangeShown | null {
  if (movement === null) return null
  const { steps } = movement
  const interval = changeInterval(values, movement, leastScatter, confidence)
  if (interval) return { size: movement.size, low: interval[0], high: interval[1], steps, isTold: true }
  const read = [...values.keys()].filter((step) => Number.isFinite(values[step]))
  const [first = 0, last = 0] = [read[0], read.at(-1)]
  const form = { beganAtStep: first + 1, lastedSteps: Math.max(1, last - first) }
  const steady = showsOfMovement(values, form, leastScatter)
  if (steady === null) return null
  const half = normalQuantile(0.5 + confidence / 2) * steady.standardError
  return { size: steady.size, low: steady.size - half, high: steady.size + half, steps, isTold: false }
}

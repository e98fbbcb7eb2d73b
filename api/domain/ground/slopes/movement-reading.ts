import { type LeftOut, sortOut } from '../analysis.ts'

export interface MovementReading {
  readonly atEpochMs: number
  readonly movementMm: number
}

/** Readings of a series; a value that is not there becomes one that is not a number, which is left out by name. */
export const movementReadings = (
  atEpochMs: readonly number[],
  movementMm: readonly (number | null)[],
): readonly MovementReading[] =>
  atEpochMs.map((instant, at) => ({ atEpochMs: instant, movementMm: movementMm[at] ?? Number.NaN }))

/** Readings in the order of time, what is no number left out, and whether two of them have one instant. */
export function movementsInOrder(
  readings: readonly MovementReading[],
  fromEpochMs = Number.NEGATIVE_INFINITY,
): {
  readonly used: readonly MovementReading[]
  readonly leftOut: readonly LeftOut<MovementReading>[]
  readonly repeated: boolean
} {
  const sorted = sortOut(
    readings.toSorted((one, other) => one.atEpochMs - other.atEpochMs),
    ({ atEpochMs, movementMm }) => {
      if (!Number.isFinite(atEpochMs) || !Number.isFinite(movementMm)) return 'It has no value.'
      return atEpochMs < fromEpochMs ? 'It is from before the window.' : null
    },
  )
  const instants = sorted.used.map(({ atEpochMs }) => atEpochMs)
  return { ...sorted, repeated: new Set(instants).size < instants.length }
}

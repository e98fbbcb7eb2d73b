/** When a change began and how long it lasted, in steps of the grid. */
export interface ChangeForm {
  readonly beganAtStep: number
  readonly lastedSteps: number
}

/** A side of a change must have so many values. */
const leastSide = 3
/** Of the time from its beginning on, a ramp may last so long and then come to rest. */
const ends = [0.25, 0.5, 0.75, 1] as const

/**
 * The step or ramp, of every beginning that leaves three values on either side, that accounts for values best, by least
 * squares; the earlier of two that do so alike. Null with fewer than six values. `at`: their steps, rising.
 */
export function bestChange(at: readonly number[], values: readonly number[]): ChangeForm | null {
  const count = values.length
  const mean = values.reduce((sum, one) => sum + one, 0) / count
  const centred = Float64Array.from(values, (value) => value - mean)
  const shape = new Float64Array(count)
  const last = at.at(-1) as number
  let best: ChangeForm | null = null
  let least = Number.POSITIVE_INFINITY
  for (let i = leastSide; i <= count - leastSide; i++) {
    const beganAtStep = at[i] as number
    const lasting = [1, ...ends.map((share) => Math.ceil(share * (last - beganAtStep + 1)))]
    for (const lastedSteps of lasting) {
      for (let j = i; j < count; j++) shape[j] = Math.min((at[j] as number) - beganAtStep + 1, lastedSteps)
      const squares = squaresLeft(shape, centred)
      if (best !== null && !(squares < least)) continue
      least = squares
      best = { beganAtStep, lastedSteps }
    }
    shape[i] = 0
  }
  return best
}

/** What is left of values about their mean once the shape is taken off, squared; thousands of shapes are tried, so nothing is made. */
function squaresLeft(shape: Float64Array, centred: Float64Array): number {
  const count = shape.length
  let sum = 0
  for (let i = 0; i < count; i++) sum += shape[i] as number
  const mean = sum / count
  let [square, product] = [0, 0]
  for (let i = 0; i < count; i++) {
    const off = (shape[i] as number) - mean
    square += off * off
    product += off * (centred[i] as number)
  }
  const slope = square === 0 ? 0 : product / square
  let squares = 0
  for (let i = 0; i < count; i++) {
    const rest = (centred[i] as number) - slope * ((shape[i] as number) - mean)
    squares += rest * rest
  }
  return squares
}

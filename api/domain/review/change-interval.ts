import { keptWith } from '../kept-with.ts'
import { lagOneAutocorrelation } from '../statistics/spread.ts'
import { studentQuantile } from '../statistics/student-t.ts'
import { accountOf, shapeOfChange, valuesThere } from './change-account.ts'
import type { Movement } from './movement.ts'

const leastSide = 3
/** Of the time from its beginning on, a change may last so long and then come to rest. */
const ends = [0.25, 0.375, 0.5, 0.625, 0.75, 0.875, 1] as const

/**
 * Interval of the size of a movement told of a series, its beginning and length left open: every size that some step or ramp
 * gives which leaves little more than the best one does (profile likelihood, F of one and the degrees of freedom of values that
 * count). The standard error of `findMovement` takes the form for known: 1.96 of it held 62 to 80 % of ramps, 78 to 94 % of steps. Coverage
 * counted over a thousand seeds of 28 and 60 values (`change-interval.test.ts`): 92 to 98 % where they hang together by 0.5 or less, 89
 * to 95 % by 0.8; of a dozen values 86 to 97 %, by 0.8 down to 81 %. Null of a movement that is none.
 */
export const changeInterval = (
  series: Float64Array,
  movement: Movement,
  leastScatter: number,
  confidence = 0.95,
): readonly [low: number, high: number] | null =>
  movement.kind === 'none'
    ? null
    : intervalFor(series, movement.beganAtStep, movement.lastedSteps, leastScatter, confidence)

/** One table asks for the same change in several of its lines. */
const intervalFor = keptWith(
  (
    series: Float64Array,
    beganAtStep: number,
    lastedSteps: number,
    leastScatter: number,
    confidence: number,
  ): readonly [number, number] => {
    const { at, values } = valuesThere(series)
    const told = accountOf(shapeOfChange(at, { beganAtStep, lastedSteps }), values)
    const freedom = countingValues(told.rest) - 1
    const squares = Math.max(told.squares, leastScatter ** 2 * values.length)
    const allowed = told.squares + (squares * studentQuantile(0.5 + confidence / 2, freedom) ** 2) / freedom
    const mean = values.reduce((sum, one) => sum + one, 0) / values.length
    const centred = Float64Array.from(values, (value) => value - mean)
    const size = told.slope * (told.shape.at(-1) ?? 0)
    const whole = centred.reduce((sum, one) => sum + one * one, 0)
    let [low, high] = [size, size]
    for (let i = leastSide; i <= values.length - leastSide; i++)
      for (const lasting of lengthsFrom(at, i)) {
        const found = sizesOf(at, centred, i, lasting, allowed - whole)
        if (found === null) continue
        low = Math.min(low, found.size - found.half)
        high = Math.max(high, found.size + found.half)
      }
    return [low, high]
  },
)

const lengthsFrom = (at: readonly number[], i: number): readonly number[] => {
  const steps = (at.at(-1) as number) - (at[i] as number) + 1
  return [1, ...ends.map((share) => Math.ceil(share * steps))]
}

/** Sizes that a change from one value on may have and leave no more than all there is and `more`; nothing is made, since thousands are tried. */
function sizesOf(
  at: readonly number[],
  centred: Float64Array,
  from: number,
  lasting: number,
  more: number,
): { readonly size: number; readonly half: number } | null {
  const count = at.length
  const began = at[from] as number
  let [sum, squares, products] = [0, 0, 0]
  for (let j = from; j < count; j++) {
    const share = Math.min((at[j] as number) - began + 1, lasting)
    sum += share
    squares += share * share
    products += share * (centred[j] as number)
  }
  const about = squares - (sum * sum) / count
  if (!(about > 0)) return null
  const room = more + (products * products) / about
  if (!(room >= 0)) return null
  const end = Math.min((at.at(-1) as number) - began + 1, lasting)
  return { size: (end * products) / about, half: end * Math.sqrt(room / about) }
}

/**
 * As of `independentCount`, but for four numbers that were fitted (level, size, beginning, length), which take more of what
 * hangs together: r + (4 + 8 r) / n.
 */
function countingValues(rest: readonly number[]): number {
  const found = lagOneAutocorrelation(rest)
  const r = found + (4 + 8 * found) / rest.length
  const held = Number.isFinite(r) ? Math.min(0.95, Math.max(0, r)) : 0
  return Math.max(3, (rest.length * (1 - held)) / (1 + held))
}

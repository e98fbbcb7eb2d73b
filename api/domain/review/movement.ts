import { lagOneAutocorrelation, madToSigma, medianAbsoluteDeviation } from '../statistics/spread.ts'

/** How a series changed over a stretch, by the simplest account of it that its readings bear out. */
export interface Movement {
  /** `step`: at once; `ramp`: steadily from an instant on, to the end or until it comes to rest; `none`: no more than chance does. */
  readonly kind: 'none' | 'step' | 'ramp'
  /** Step of the grid with which it began; 0 where there is none. */
  readonly beganAtStep: number
  /** Steps from its beginning until it came to rest; 1 of a step, 0 where there is none. */
  readonly lastedSteps: number
  /** From the level before to the end, in the unit of the series. */
  readonly size: number
  /** Standard error of the size, readings taken as hanging together as their residuals do. */
  readonly standardError: number
  /** What is left over, as a standard deviation of a step's value. */
  readonly scatter: number
  readonly steps: number
}

const fewestSteps = 8
/** A side of a change must have so many values. */
const leastSide = 3
/** Of the time from its beginning on, a ramp may last so long and then come to rest. */
const ends = [0.25, 0.5, 0.75, 1] as const
/** A change must lower Schwarz's criterion by so much: strong evidence by the usual scale. */
const criterionGain = 6

/**
 * The change of a series on even steps (NaN: nothing read): none, one step or one ramp that may come to rest, by Schwarz's criterion with the
 * number of independent values that lag-one correlation of what is left over allows. `leastScatter` is the standard
 * uncertainty of a value: agreement better than that is chance. Null with fewer than eight values.
 */
export function findMovement(series: Float64Array, leastScatter: number): Movement | null {
  const at: number[] = []
  const values: number[] = []
  series.forEach((value, step) => {
    if (!Number.isFinite(value)) return
    at.push(step)
    values.push(value)
  })
  if (values.length < fewestSteps) return null
  const none = accountOf(
    values.map(() => 0),
    values,
  )
  let best = { ...none, kind: 'none' as Movement['kind'], began: 0, lasted: 0 }
  for (let i = leastSide; i <= values.length - leastSide; i++) {
    const began = at[i] as number
    for (const lasting of [
      1,
      ...ends.map((share) => Math.ceil(share * ((at.at(-1) as number) - began + 1))),
    ]) {
      const kind = lasting === 1 ? 'step' : 'ramp'
      const shape = at.map((step) => (step < began ? 0 : Math.min(step - began + 1, lasting)))
      const account = accountOf(shape, values)
      if (account.squares < best.squares || best.kind === 'none')
        best = { ...account, kind, began, lasted: lasting }
    }
  }
  // Equal values differ in the last bit of their means: that is no change.
  const rounding = 1e-9 * Math.max(...values.map(Math.abs))
  const floor = Math.max(leastScatter, rounding) ** 2 * values.length
  const count = independent(best.rest)
  const criterion = (squares: number, parameters: number) =>
    count * Math.log(Math.max(squares, floor, 1e-300) / values.length) + parameters * Math.log(count)
  const isTold =
    best.kind !== 'none' && criterion(none.squares, 1) - criterion(best.squares, 4) > criterionGain
  const told = isTold ? best : { ...none, kind: 'none' as const, began: 0, lasted: 0 }
  const robust = madToSigma * medianAbsoluteDeviation([...told.rest])
  // Where most values are equal the median says nothing of the others.
  const scatter = Math.max(leastScatter, robust > 0 ? robust : Math.sqrt(told.squares / values.length))
  const spread = Math.sqrt(values.length / Math.max(2, independent(told.rest)))
  return {
    kind: told.kind,
    beganAtStep: told.began,
    lastedSteps: told.lasted,
    size: told.slope * (told.shape.at(-1) ?? 0),
    standardError: scatter * told.unitError * (told.shape.at(-1) ?? 0) * spread,
    scatter,
    steps: values.length,
  }
}

interface Account {
  readonly shape: readonly number[]
  readonly slope: number
  readonly squares: number
  readonly rest: readonly number[]
  /** Standard error of the slope for a scatter of one. */
  readonly unitError: number
}

function accountOf(shape: readonly number[], values: readonly number[]): Account {
  const count = values.length
  const meanShape = shape.reduce((sum, one) => sum + one, 0) / count
  const meanValue = values.reduce((sum, one) => sum + one, 0) / count
  let square = 0
  let product = 0
  shape.forEach((one, i) => {
    square += (one - meanShape) ** 2
    product += (one - meanShape) * ((values[i] as number) - meanValue)
  })
  const slope = square === 0 ? 0 : product / square
  const rest = values.map((value, i) => value - meanValue - slope * ((shape[i] as number) - meanShape))
  const squares = rest.reduce((sum, one) => sum + one * one, 0)
  return { shape, slope, squares, rest, unitError: square === 0 ? 0 : 1 / Math.sqrt(square) }
}

/**
 * Values that count, of ones that hang together: n (1 − r) / (1 + r), never more than there are. What is left over hangs
 * together less than the readings do, since the fit took its share: r + (2 + 4 r) / n (Kendall 1954, for a trend taken
 * off; from memory).
 */
function independent(rest: readonly number[]): number {
  const found = lagOneAutocorrelation(rest)
  const r = found + (2 + 4 * found) / rest.length
  const held = Number.isFinite(r) ? Math.min(0.95, Math.max(0, r)) : 0
  return Math.max(3, (rest.length * (1 - held)) / (1 + held))
}

/**
 * How much of a movement of another series this one shows: the least-squares size of a change of the same form in time, with its
 * standard error as of `findMovement`. Null with fewer than eight values, or where none lies on one side of it.
 */
export function showsOfMovement(
  series: Float64Array,
  { beganAtStep, lastedSteps }: Pick<Movement, 'beganAtStep' | 'lastedSteps'>,
  leastScatter: number,
): { readonly size: number; readonly standardError: number } | null {
  const at = [...series.keys()].filter((step) => Number.isFinite(series[step]))
  if (at.length < fewestSteps || lastedSteps < 1) return null
  const values = at.map((step) => series[step] as number)
  const shape = at.map((step) => (step < beganAtStep ? 0 : Math.min(step - beganAtStep + 1, lastedSteps)))
  const account = accountOf(shape, values)
  if (account.unitError === 0) return null
  const scatter = Math.max(leastScatter, Math.sqrt(account.squares / Math.max(1, values.length - 2)))
  const spread = Math.sqrt(values.length / Math.max(2, independent(account.rest)))
  return {
    size: account.slope * lastedSteps,
    standardError: scatter * account.unitError * lastedSteps * spread,
  }
}

/** What is left of the values of a series beside a movement of it, in order, gaps left out; null where it shows none. */
export function restOfMovement(series: Float64Array, movement: Movement | null): readonly number[] | null {
  if (movement === null || movement.kind === 'none') return null
  const { beganAtStep, lastedSteps } = movement
  const at = [...series.keys()].filter((step) => Number.isFinite(series[step]))
  return accountOf(
    at.map((step) => (step < beganAtStep ? 0 : Math.min(step - beganAtStep + 1, lastedSteps))),
    at.map((step) => series[step] as number),
  ).rest
}

/** True where a movement is more than `sigmas` of its standard errors. */
export const isBeyondChance = (movement: Movement | null, sigmas = 4): movement is Movement =>
  movement !== null && movement.kind !== 'none' && Math.abs(movement.size) > sigmas * movement.standardError

import { lagOneAutocorrelation, madToSigma, medianAbsoluteDeviation } from '../statistics/spread.ts'

/** How a series changed over a stretch, by the simplest account of it that its readings bear out. */
export interface Movement {
  /** `step`: at once; `ramp`: steadily from an instant on; `none`: no more than chance does. */
  readonly kind: 'none' | 'step' | 'ramp'
  /** Step of the grid with which it began; 0 where there is none. */
  readonly beganAtStep: number
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
/** A change must lower Schwarz's criterion by so much: strong evidence by the usual scale. */
const criterionGain = 6

/**
 * The change of a series on even steps (NaN: nothing read): none, one step or one ramp, by Schwarz's criterion with the
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
  let best = { ...none, kind: 'none' as Movement['kind'], began: 0 }
  for (let i = leastSide; i <= values.length - leastSide; i++) {
    const began = at[i] as number
    for (const kind of ['step', 'ramp'] as const) {
      const shape = at.map((step) => (step < began ? 0 : kind === 'step' ? 1 : step - began + 1))
      const account = accountOf(shape, values)
      if (account.squares < best.squares || best.kind === 'none') best = { ...account, kind, began }
    }
  }
  const floor = leastScatter ** 2 * values.length
  const count = independent(best.rest)
  const criterion = (squares: number, parameters: number) =>
    count * Math.log(Math.max(squares, floor, 1e-300) / values.length) + parameters * Math.log(count)
  const isTold =
    best.kind !== 'none' && criterion(none.squares, 1) - criterion(best.squares, 3) > criterionGain
  const told = isTold ? best : { ...none, kind: 'none' as const, began: 0 }
  const scatter = Math.max(leastScatter, madToSigma * medianAbsoluteDeviation([...told.rest]))
  const spread = Math.sqrt(values.length / Math.max(2, independent(told.rest)))
  return {
    kind: told.kind,
    beganAtStep: told.began,
    size: told.slope * (told.shape.at(-1) ?? 0),
    standardError: Math.max(scatter, leastScatter) * told.unitError * (told.shape.at(-1) ?? 0) * spread,
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

/** Values that count, of ones that hang together: n (1 − r) / (1 + r), never more than there are. */
function independent(rest: readonly number[]): number {
  const r = lagOneAutocorrelation(rest)
  const held = Number.isFinite(r) ? Math.min(0.95, Math.max(0, r)) : 0
  return Math.max(4, (rest.length * (1 - held)) / (1 + held))
}

/** True where a movement is more than `sigmas` of its standard errors. */
export const isBeyondChance = (movement: Movement | null, sigmas = 4): movement is Movement =>
  movement !== null && movement.kind !== 'none' && Math.abs(movement.size) > sigmas * movement.standardError

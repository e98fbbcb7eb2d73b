import { keptWith } from '../kept-with.ts'
import { madToSigma, medianAbsoluteDeviation } from '../statistics/spread.ts'
import { bestChange, type ChangeForm } from './best-change.ts'
import { accountOf, independentCount, shapeOfChange, valuesThere } from './change-account.ts'

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
/** A change must lower Schwarz's criterion by so much: strong evidence by the usual scale. */
const criterionGain = 6

/**
 * The change of a series on even steps (NaN: nothing read): none, one step or one ramp that may come to rest, by Schwarz's criterion with the
 * number of independent values that lag-one correlation of what is left over allows. `leastScatter` is the standard
 * uncertainty of a value: agreement better than that is chance. Null with fewer than eight values.
 */
export const findMovement = keptWith((series: Float64Array, leastScatter: number): Movement | null => {
  const { at, values } = valuesThere(series)
  if (values.length < fewestSteps) return null
  const none = accountOf(
    values.map(() => 0),
    values,
  )
  const form = bestChange(at, values) as ChangeForm
  const best = accountOf(shapeOfChange(at, form), values)
  // Equal values differ in the last bit of their means: that is no change.
  const rounding = 1e-9 * Math.max(...values.map(Math.abs))
  const floor = Math.max(leastScatter, rounding) ** 2 * values.length
  const count = independentCount(best.rest)
  const criterion = (squares: number, parameters: number) =>
    count * Math.log(Math.max(squares, floor, 1e-300) / values.length) + parameters * Math.log(count)
  const isTold = criterion(none.squares, 1) - criterion(best.squares, 4) > criterionGain
  const told = isTold ? best : none
  const robust = madToSigma * medianAbsoluteDeviation(told.rest)
  // Where most values are equal the median says nothing of the others.
  const scatter = Math.max(leastScatter, robust > 0 ? robust : Math.sqrt(told.squares / values.length))
  const spread = Math.sqrt(values.length / Math.max(2, independentCount(told.rest)))
  const kind = !isTold ? 'none' : form.lastedSteps === 1 ? 'step' : 'ramp'
  return {
    kind,
    beganAtStep: isTold ? form.beganAtStep : 0,
    lastedSteps: isTold ? form.lastedSteps : 0,
    size: told.slope * (told.shape.at(-1) ?? 0),
    standardError: scatter * told.unitError * (told.shape.at(-1) ?? 0) * spread,
    scatter,
    steps: values.length,
  }
})

/** True where a movement is more than `sigmas` of its standard errors. */
export const isBeyondChance = (movement: Movement | null, sigmas = 4): movement is Movement =>
  movement !== null && movement.kind !== 'none' && Math.abs(movement.size) > sigmas * movement.standardError

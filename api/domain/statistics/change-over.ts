import { lagOneAutocorrelation } from './spread.ts'
import { studentQuantile } from './student-t.ts'

/** How far values went from the beginning of a stretch to its end. */
export interface ChangeOver {
  /** Mean of the last values less mean of the first. */
  readonly change: number
  readonly standardError: number
  /** 95 %, by Student's t of the values that count. */
  readonly interval: readonly [low: number, high: number]
  /** From the middle of the first values to that of the last, in steps. */
  readonly steps: number
  /** Values at each end that are averaged. */
  readonly averaged: number
}

const fewest = 8
const most = 7

/**
 * Change over an even grid (NaN: nothing there): mean of the last eighth of the values, seven at most, less that of the first. Its
 * standard error is that of the difference of two means, from what values differ by beside their course: `restOfCourse`, one for each
 * value that is there, else what a straight line leaves of them. What hangs together counts less: n (1 − r) / (1 + r). `leastScatter` is
 * the standard uncertainty of a value. Null with fewer than eight values. Common practice, no published source.
 */
export function changeOver(
  series: Float64Array,
  leastScatter: number,
  restOfCourse: readonly number[] | null = null,
): ChangeOver | null {
  const at = [...series.keys()].filter((i) => Number.isFinite(series[i]))
  if (at.length < fewest) return null
  const values = at.map((i) => series[i] as number)
  const averaged = Math.min(most, Math.max(1, Math.round(values.length / 8)))
  const mean = (list: readonly number[]) => list.reduce((sum, one) => sum + one, 0) / list.length
  const change = mean(values.slice(-averaged)) - mean(values.slice(0, averaged))
  const steps = mean(at.slice(-averaged)) - mean(at.slice(0, averaged))
  const rest = restOfCourse ?? restOfLine(values)
  const found = lagOneAutocorrelation(rest)
  const r = Number.isFinite(found) ? Math.min(0.95, Math.max(0, found)) : 0
  const counted = Math.max(1, (averaged * (1 - r)) / (1 + r))
  const scatter = Math.max(leastScatter, spread(rest))
  const standardError = scatter * Math.sqrt(2 / counted)
  const freedom = Math.max(2, (values.length * (1 - r)) / (1 + r) - 2)
  const half = studentQuantile(0.975, freedom) * standardError
  return { change, standardError, interval: [change - half, change + half], steps, averaged }
}

function restOfLine(values: readonly number[]): readonly number[] {
  const [middle, mean] = [(values.length - 1) / 2, values.reduce((sum, one) => sum + one, 0) / values.length]
  let [square, product] = [0, 0]
  values.forEach((value, i) => {
    square += (i - middle) ** 2
    product += (i - middle) * (value - mean)
  })
  return values.map((value, i) => value - mean - (product / square) * (i - middle))
}

const spread = (values: readonly number[]): number =>
  Math.sqrt(values.reduce((sum, one) => sum + one * one, 0) / Math.max(1, values.length - 2))

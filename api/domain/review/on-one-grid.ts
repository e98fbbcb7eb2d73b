import { keptWith } from '../kept-with.ts'
import type { Trace } from './review-case.ts'

/** Means of traces over the same steps of time; NaN where a trace has no reading in a step. */
export interface OnOneGrid {
  readonly startEpochMs: number
  readonly stepMs: number
  readonly steps: number
  /** The very same row where the same readings are asked for again: it is not to be changed. */
  readonly of: (trace: Pick<Trace, 'atEpochMs' | 'values'>) => Float64Array
}

/** A grid over a stretch, so that series read at different instants can be held against each other. */
export function onOneGrid(fromEpochMs: number, untilEpochMs: number, stepMs: number): OnOneGrid {
  const steps = Math.max(0, Math.ceil((untilEpochMs - fromEpochMs) / stepMs))
  return {
    startEpochMs: fromEpochMs,
    stepMs,
    steps,
    of: ({ atEpochMs, values }) => rowsAt(atEpochMs)(values, fromEpochMs, stepMs, steps),
  }
}

/** Many series are held against the same neighbours, by many rules: each is put on a grid once. */
const rowsAt = keptWith((atEpochMs: readonly number[]) =>
  keptWith((values: readonly number[], fromEpochMs: number, stepMs: number, steps: number) => {
    const sum = new Float64Array(steps)
    const count = new Float64Array(steps)
    for (let i = 0; i < atEpochMs.length; i++) {
      const step = Math.floor(((atEpochMs[i] as number) - fromEpochMs) / stepMs)
      const value = values[i] as number
      if (step < 0 || step >= steps || !Number.isFinite(value)) continue
      sum[step] = (sum[step] as number) + value
      count[step] = (count[step] as number) + 1
    }
    for (let step = 0; step < steps; step++) sum[step] = (sum[step] as number) / (count[step] as number)
    return sum
  }),
)

/** One series less another, step by step; NaN where either has nothing. */
export function lessOther(one: Float64Array, other: Float64Array): Float64Array {
  const less = new Float64Array(one.length)
  for (let step = 0; step < less.length; step++) less[step] = (one[step] as number) - (other[step] as number)
  return less
}

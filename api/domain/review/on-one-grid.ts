import type { Trace } from './review-case.ts'

/** Means of traces over the same steps of time; NaN where a trace has no reading in a step. */
export interface OnOneGrid {
  readonly startEpochMs: number
  readonly stepMs: number
  readonly steps: number
  readonly of: (trace: Pick<Trace, 'atEpochMs' | 'values'>) => Float64Array
}

/** A grid over a stretch, so that series read at different instants can be held against each other. */
export function onOneGrid(fromEpochMs: number, untilEpochMs: number, stepMs: number): OnOneGrid {
  const steps = Math.max(0, Math.ceil((untilEpochMs - fromEpochMs) / stepMs))
  return {
    startEpochMs: fromEpochMs,
    stepMs,
    steps,
    of({ atEpochMs, values }) {
      const sum = new Float64Array(steps)
      const count = new Float64Array(steps)
      atEpochMs.forEach((at, i) => {
        const step = Math.floor((at - fromEpochMs) / stepMs)
        if (step < 0 || step >= steps || !Number.isFinite(values[i])) return
        sum[step] = (sum[step] as number) + (values[i] as number)
        count[step] = (count[step] as number) + 1
      })
      return sum.map((total, step) => total / (count[step] as number))
    },
  }
}

/** One series less another, step by step; NaN where either has nothing. */
export const lessOther = (one: Float64Array, other: Float64Array): Float64Array =>
  one.map((value, step) => value - (other[step] as number))

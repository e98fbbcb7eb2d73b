import { findMovement, type Movement } from './movement.ts'
import { lessOther, type OnOneGrid, onOneGrid } from './on-one-grid.ts'
import type { ReviewCase, Trace } from './review-case.ts'

const dayMs = 86_400_000

/** The subject and whatever it is held against on one grid, coarse enough for the one that is read least often. */
export interface Looks {
  readonly grid: OnOneGrid
  readonly subject: Float64Array
  readonly movement: Movement | null
  /** When the subject's movement began; null: it shows none. */
  readonly beganAtEpochMs: number | null
  readonly of: (trace: Trace) => { readonly values: Float64Array; readonly movement: Movement | null }
  /** The subject less the trace. */
  readonly difference: (trace: Trace) => Movement | null
  readonly uncertaintyOf: (trace: Trace) => number
}

/** Looks at a case by the day, or by as many days as lie between two readings of the subject or a trace. */
export function looksAt(reviewed: ReviewCase, other?: Trace): Looks {
  const { subject, fromEpochMs, untilEpochMs } = reviewed
  const minutes = Math.max(subject.intervalMinutes, other?.intervalMinutes ?? 0)
  const stepMs = Math.max(dayMs, minutes * 60_000)
  const grid = onOneGrid(fromEpochMs, untilEpochMs, stepMs)
  const values = grid.of(subject)
  const uncertaintyOf = ({ standardUncertainty }: Trace) => standardUncertainty ?? 0
  const movement = findMovement(values, uncertaintyOf(subject))
  return {
    grid,
    subject: values,
    movement,
    beganAtEpochMs:
      movement === null || movement.kind === 'none' ? null : fromEpochMs + movement.beganAtStep * stepMs,
    of(trace) {
      const own = grid.of(trace)
      return { values: own, movement: findMovement(own, uncertaintyOf(trace)) }
    },
    difference: (trace) =>
      findMovement(
        lessOther(values, grid.of(trace)),
        Math.hypot(uncertaintyOf(subject), uncertaintyOf(trace)),
      ),
    uncertaintyOf,
  }
}

import { keptWith } from '../kept-with.ts'
import { type ChangeShown, changeShown } from './change-shown.ts'
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
  /** How much the subject less the trace changed, also where no movement of it is told. */
  readonly differenceShown: (trace: Trace, confidence?: number) => ChangeShown | null
  /** How much the subject or a trace changed by itself, likewise. */
  readonly changeShown: (trace: Trace) => ChangeShown | null
  readonly uncertaintyOf: (trace: Trace) => number
}

/** Looks at a case by the day, or by as many days as lie between two readings of the subject or a trace. */
export function looksAt({ subject, fromEpochMs, untilEpochMs }: ReviewCase, other?: Trace): Looks {
  const minutes = Math.max(subject.intervalMinutes, other?.intervalMinutes ?? 0)
  return looksOf(subject, fromEpochMs, untilEpochMs, Math.max(dayMs, minutes * 60_000))
}

/** Nearly every rule looks, and most at the same. */
const looksOf = keptWith(
  (subject: Trace, fromEpochMs: number, untilEpochMs: number, stepMs: number): Looks => {
    const grid = onOneGrid(fromEpochMs, untilEpochMs, stepMs)
    const values = grid.of(subject)
    // Of a mean over a step: what differs from reading to reading averages out.
    const uncertaintyOf = ({ repeatability, intervalMinutes }: Trace) =>
      (repeatability ?? 0) / Math.sqrt(Math.max(1, stepMs / (intervalMinutes * 60_000)))
    const movement = findMovement(values, uncertaintyOf(subject))
    const lessOf = keptWith((trace: Trace) =>
      isSeldom(trace) && !isSeldom(subject)
        ? lessOther(grid.of(atInstantsOf(subject, trace)), grid.of(trace))
        : lessOther(values, grid.of(trace)),
    )
    const leastOf = (trace: Trace) => Math.hypot(uncertaintyOf(subject), uncertaintyOf(trace))
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
      difference: (trace) => findMovement(lessOf(trace), leastOf(trace)),
      differenceShown(trace, confidence) {
        const less = lessOf(trace)
        return changeShown(less, findMovement(less, leastOf(trace)), leastOf(trace), confidence)
      },
      changeShown(trace) {
        const own = trace === subject ? values : grid.of(trace)
        return changeShown(own, findMovement(own, uncertaintyOf(trace)), uncertaintyOf(trace))
      },
      uncertaintyOf,
    }
  },
)

/** Read less often than daily: what swings within the day is then held against the reading beside it, not a mean. */
const isSeldom = ({ intervalMinutes }: Trace) => intervalMinutes > 1440

/** The readings next to the instants of another, where one is near enough. */
function atInstantsOf(subject: Trace, other: Trace): Pick<Trace, 'atEpochMs' | 'values'> {
  const nearMs = 1.5 * subject.intervalMinutes * 60_000
  const atEpochMs: number[] = []
  const values: number[] = []
  let place = 0
  for (const at of other.atEpochMs) {
    const away = (i: number) => Math.abs((subject.atEpochMs[i] ?? Number.POSITIVE_INFINITY) - at)
    while (place + 1 < subject.atEpochMs.length && away(place + 1) <= away(place)) place++
    if (!(away(place) <= nearMs)) continue
    atEpochMs.push(at)
    values.push(subject.values[place] as number)
  }
  return { atEpochMs, values }
}

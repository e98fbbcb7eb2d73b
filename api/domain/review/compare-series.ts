import { type ChangeOver, changeOver } from '../statistics/change-over.ts'
import { type Correlation, correlationOf, rankCorrelation } from '../statistics/correlation.ts'
import { lagBetween } from '../statistics/lag-between.ts'
import { rollingDifferences } from '../statistics/rolling-differences.ts'
import { findMovement } from './movement.ts'
import { onOneGrid } from './on-one-grid.ts'
import type { Trace } from './review-case.ts'
import { restOfMovement } from './shows-of-movement.ts'

const [hourMs, dayMs] = [3_600_000, 86_400_000]
const mostLagSteps = 72

/** One series of a comparison, by itself and beside the one that all are held against. */
export interface ComparedSeries {
  readonly trace: Trace
  /** Over the stretch, from means by the day; null: fewer than eight days read. */
  readonly change: ChangeOver | null
  readonly perDay: { readonly rate: number; readonly low: number; readonly high: number } | null
  /** Of changes over the length asked for; null for the one held against, and where too little is there. */
  readonly correlation: Correlation | null
  readonly rank: Correlation | null
  readonly lagHours: {
    readonly lag: number
    readonly low: number
    readonly high: number
    readonly open: boolean
    readonly alike: number
  } | null
  /** Between two values that were held against each other, hours. */
  readonly stepHours: number
}

/**
 * Series of any quantities over one stretch. Correlation and lag are of their changes over `differenceMs`, on the finest grid that both
 * are read for: what they share by standing at levels, or by drifting alike for months, is mostly taken off. Adding a constant to a series
 * changes nothing.
 */
export function compareSeries(
  reference: Trace | null,
  traces: readonly Trace[],
  {
    fromEpochMs,
    untilEpochMs,
    differenceMs,
  }: {
    readonly fromEpochMs: number
    readonly untilEpochMs: number
    readonly differenceMs: number
  },
): readonly ComparedSeries[] {
  return traces.map((trace) => {
    const change = changeOf(trace, fromEpochMs, untilEpochMs)
    const minutes = Math.max(trace.intervalMinutes, reference?.intervalMinutes ?? 0)
    const stepMs = Math.max(hourMs, minutes * 60_000)
    const alone = {
      trace,
      ...change,
      correlation: null,
      rank: null,
      lagHours: null,
      stepHours: stepMs / hourMs,
    }
    if (!reference || reference.series === trace.series) return alone
    const grid = onOneGrid(fromEpochMs, untilEpochMs, stepMs)
    const steps = Math.max(1, Math.round(differenceMs / stepMs))
    const [one, other] = [trace, reference].map((each) => rollingDifferences(grid.of(each), steps)) as [
      Float64Array,
      Float64Array,
    ]
    const lag = lagBetween(one, other, Math.min(mostLagSteps, Math.floor(grid.steps / 4)))
    return {
      ...alone,
      correlation: correlationOf(one, other),
      rank: rankCorrelation(one, other),
      lagHours: lag && {
        lag: lag.lag * alone.stepHours,
        low: lag.lagInterval[0] * alone.stepHours,
        high: lag.lagInterval[1] * alone.stepHours,
        open: lag.open,
        alike: lag.alike,
      },
    }
  })
}

function changeOf(
  trace: Trace,
  fromEpochMs: number,
  untilEpochMs: number,
): Pick<ComparedSeries, 'change' | 'perDay'> {
  const stepMs = Math.max(dayMs, trace.intervalMinutes * 60_000)
  const each = Math.max(1, stepMs / (trace.intervalMinutes * 60_000))
  const values = onOneGrid(fromEpochMs, untilEpochMs, stepMs).of(trace)
  const least = (trace.repeatability ?? 0) / Math.sqrt(each)
  const change = changeOver(values, least, restOfMovement(values, findMovement(values, least)))
  const days = change ? (change.steps * stepMs) / dayMs : 0
  return {
    change,
    perDay:
      change && days > 0
        ? { rate: change.change / days, low: change.interval[0] / days, high: change.interval[1] / days }
        : null,
  }
}

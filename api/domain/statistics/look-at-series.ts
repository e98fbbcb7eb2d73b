import { accept, type Outcome, reject } from '../outcome.ts'
import { autocorrelatedSlopeError, lagsToLookOver } from './autocorrelated-slope.ts'
import { type HampelOutlier, hampelOutliers } from './hampel.ts'
import { fitLine, type LineFit } from './least-squares.ts'
import { findMeanChange, type MeanChange } from './mean-change.ts'
import { median } from './spread.ts'
import { findStepChange, type StepChange } from './step-change.ts'
import { timeWeightedMean } from './time-weighted-mean.ts'
import { type MannKendall, mannKendall, type RobustLine, theilSen } from './trend.ts'

/** What a stretch of one series shows: all of it told, none of it taken off. */
export interface SeriesLook {
  readonly atEpochMs: readonly number[]
  readonly values: readonly number[]
  /** Against days since the first value; slopes a day. */
  readonly robust: RobustLine
  readonly line: LineFit
  /** Of the line's slope where neighbours hang together (Newey and West); null where it is not to be told. */
  readonly hangingTogether: number | null
  readonly trend: MannKendall
  /** By index into `values`. */
  readonly outliers: readonly HampelOutlier[]
  /** One change of level; null where none is told better than no change. */
  readonly change: MeanChange | null
  readonly rankStep: StepChange | null
  readonly timeMean: number
  /** Longest time that a mean runs across. */
  readonly longestGapMs: number
}

const dayMs = 86_400_000

/** A change must leave a criterion lower by this to be told: strong evidence by the usual scale of it. */
const criterionGain = 6

/**
 * Trend, change of level, values that stand off and mean of a stretch of a series, in order of time. `leastSpread` is the
 * sensor's resolution. Refused with fewer than eight values: less shows neither trend nor step.
 */
export function lookAtSeries(
  atEpochMs: readonly number[],
  values: readonly number[],
  { leastSpread }: { readonly leastSpread: number },
): Outcome<SeriesLook> {
  if (values.length < 8)
    return reject({
      code: 'readings-too-few',
      value: String(values.length),
      expected: 'eight values or more',
      message: `Trend and steps need eight values; there are ${values.length}. Take a longer stretch.`,
    })
  const first = atEpochMs[0] as number
  const days = atEpochMs.map((at) => (at - first) / dayMs)
  const line = fitLine(days, values)
  if (!line.ok) return line
  const spacings = days.slice(1).map((day, at) => day - (days[at] as number))
  const usual = median(spacings)
  const { intercept, slope } = line.value
  const middle = days.reduce((sum, day) => sum + day, 0) / days.length
  const change = findMeanChange(values, { leastRun: 3 })
  const longestGapMs = 3 * usual * dayMs
  return accept({
    atEpochMs,
    values,
    robust: theilSen(days, values),
    line: line.value,
    hangingTogether: autocorrelatedSlopeError(
      days.map((day) => day - middle),
      values.map((value, at) => value - intercept - slope * (days[at] as number)),
      lagsToLookOver(values.length, Math.max(usual * 24, 1e-6)),
      2,
    ),
    trend: mannKendall(values),
    outliers: hampelOutliers(values, 3, 3, leastSpread),
    change: change && change.criterionWith < change.criterionWithout - criterionGain ? change : null,
    rankStep: findStepChange(values),
    timeMean: timeWeightedMean(atEpochMs, values, longestGapMs),
    longestGapMs,
  })
}

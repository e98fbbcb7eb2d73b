import type { SeriesLook } from '../statistics/look-at-series.ts'
import { type Analysis, estimated, given, type LeftOut } from './analysis.ts'

/** One value of a series at its instant; a value that is not there has none. */
export interface SeriesValue {
  readonly atEpochMs: number
  readonly value: number | null
}

/** What a look at a series found, as every analysis accounts for itself. */
export function seriesAccount(
  look: SeriesLook,
  unit: string,
  leftOut: readonly LeftOut<SeriesValue>[],
): Analysis<SeriesValue> {
  const { robust, line, hangingTogether, trend, change, outliers, rankStep } = look
  const perDay = `${unit}/d`
  const [low, high] = robust.slopeInterval ?? [Number.NaN, Number.NaN]
  const isTold = trend.pTwoSided < 0.05
  return {
    method:
      'Theil–Sen slope (Theil 1950, Sen 1968) with the Mann–Kendall test, a straight line with errors that hold where neighbours hang together (Newey and West 1987), one change of level by least squares (Bai 1997) and by ranks (Pettitt 1979), values that stand off their six neighbours by three scaled deviations (Hampel 1974).',
    parameters: [given('longest gap that the mean runs across', look.longestGapMs / 3_600_000, 'h')],
    found: [
      given('Theil–Sen slope', robust.slope, perDay),
      ...(robust.slopeInterval === null
        ? []
        : [given('its interval of 95 %, from', low, perDay), given('to', high, perDay)]),
      given('Mann–Kendall, two-sided p', trend.pTwoSided, ''),
      estimated('slope of a line', line.slope, perDay, hangingTogether ?? line.slopeStandardError),
      given('mean over time', look.timeMean, unit),
      given('values that stand off', outliers.length, ''),
      ...(change === null
        ? []
        : [
            given('level before the change', change.meanBefore, unit),
            given('level after it', change.meanAfter, unit),
          ]),
      ...(rankStep === null ? [] : [given('change by ranks, approximate p', rankStep.pApproximate, '')]),
    ],
    used: look.values.map((value, at) => ({ value, atEpochMs: look.atEpochMs[at] ?? Number.NaN })),
    leftOut,
    remarks: [
      isTold
        ? 'A trend is told from these values, as far as they are independent of each other.'
        : 'No trend is told from these values. That does not say that nothing moves.',
      ...(change === null
        ? ['No change of level is told better than none.']
        : [
            'A change of level is told better than none; a steady trend looks like one too, so look at both. What it is from is for a person to find.',
          ]),
      'Tests take values as independent. Readings close in time hang together, and p is then too small: thin them, or take daily means.',
    ],
  }
}

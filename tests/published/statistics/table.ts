import { circularMeanDegrees } from '#domain/statistics/circular-mean.ts'
import { cusumChart, ewmaChart } from '#domain/statistics/control-chart.ts'
import { hampelOutliers } from '#domain/statistics/hampel.ts'
import { fitLine } from '#domain/statistics/least-squares.ts'
import { fitPlane } from '#domain/statistics/multiple-regression.ts'
import { normalQuantile } from '#domain/statistics/normal-quantile.ts'
import { regressionRateNoise, twoPointRateNoise } from '#domain/statistics/rate-noise.ts'
import {
  lagOneAutocorrelation,
  madToSigma,
  mean,
  median,
  medianAbsoluteDeviation,
  quantile,
  standardDeviation,
} from '#domain/statistics/spread.ts'
import { findStepChange } from '#domain/statistics/step-change.ts'
import { heldMean, timeWeightedMean } from '#domain/statistics/time-weighted-mean.ts'
import { mannKendall, theilSen } from '#domain/statistics/trend.ts'
import { accepted } from '../accepted.ts'
import type { PublishedTable } from '../published-row.ts'
import { statisticsRows } from './rows.ts'

/**
 * Rows of a way of thinning that the project does not have: it may drop an extreme, and histories are drawn with
 * `keepExtremes`, which keeps them all.
 */
const otherThinning: readonly string[] = ['ST-22', 'ST-23']

const univariate = (values: readonly number[]) => ({
  mean: mean(values),
  sd: standardDeviation(values),
  r1: lagOneAutocorrelation(values),
})

const kendall = (values: readonly number[]) => {
  const { score, variance, z, pNormal } = mannKendall(values)
  return { S: score, varS: variance, Z: z, p_two_sided: pNormal }
}

const senSlope = (y: readonly number[]) =>
  theilSen(
    y.map((_, at) => at),
    y,
  ).slope

export const statistics: PublishedTable = {
  area: 'statistics',
  rows: statisticsRows.filter(({ id }) => !otherThinning.includes(id)),
  computed: {
    'ST-01': ({ y }) => univariate(y),
    'ST-02': ({ first, pair, pairs }) =>
      univariate([first, ...Array.from({ length: pairs }, () => pair).flat()]),
    'ST-03': ({ x, y }) => {
      const fit = accepted(fitLine(x, y))
      return {
        b0: fit.intercept,
        b1: fit.slope,
        se_b0: fit.interceptStandardError,
        se_b1: fit.slopeStandardError,
        residual_sd: fit.residualStandardDeviation,
        R2: fit.rSquared,
      }
    },
    'ST-05': ({ x, y }: { x: number[][]; y: number[] }) => {
      const columns = (x[0] ?? []).map((_, column) => x.map((row) => row[column] as number))
      const fit = accepted(fitPlane(columns, y))
      return {
        b: fit.coefficients,
        se: fit.standardErrors,
        residual_sd: fit.residualStandardDeviation,
        R2: fit.rSquared,
      }
    },
    'ST-06': ({ t0_ms, step_ms, y }: { t0_ms: number; step_ms: number; y: number[] }) => {
      const at = y.map((_, place) => t0_ms + place * step_ms)
      const since = at.map((one) => one - t0_ms)
      return {
        slope_per_day: accepted(fitLine(at, y)).slope * 86_400_000,
        value_at_t0: accepted(fitLine(since, y)).intercept,
      }
    },
    'ST-07': ({ y }) => kendall(y),
    'ST-08': ({ y }) => senSlope(y),
    'ST-09': ({ y }) => {
      const { tau, pNormal, pExact } = mannKendall(y)
      return { ...kendall(y), tau, p_normal: pNormal, p_exact: pExact }
    },
    'ST-10': ({ t, y }) => {
      const robust = theilSen(t, y)
      const fit = accepted(fitLine(t, y))
      return {
        slope: robust.slope,
        intercept_median_residual: robust.intercept,
        intercept_medians: robust.interceptOfMedians,
        ols_slope: fit.slope,
        ols_intercept: fit.intercept,
      }
    },
    'ST-11': ({ y }) => ({ ...kendall(y), sen_slope: senSlope(y) }),
    'ST-12': ({ y }) => {
      const step = findStepChange(y)
      return {
        break_after_index: step?.before,
        break_year: 1870 + (step?.before ?? Number.NaN),
        K: step?.statistic,
        p_approx: step?.pApproximate,
        mean_before: step?.meanBefore,
        mean_after: step?.meanAfter,
      }
    },
    'ST-13': ({ x, target, K, H }) => cusum(x, { target, slack: K, decision: H }),
    'ST-14': ({ x, target, k, h }) => cusum(x, { target, slack: k, decision: h }),
    'ST-15': ({ x, lambda, z0, s }) => {
      const chart = ewmaChart(x, { target: z0, weight: lambda, standardDeviation: s })
      return { z: chart.averages, UCL: chart.upperLimit, LCL: chart.lowerLimit }
    },
    'ST-16': ({ x }) => {
      const mad = medianAbsoluteDeviation(x)
      return {
        median: median(x),
        MAD: mad,
        // The row takes the constant to four decimals; the project's has them all.
        'MAD_x_1.4826': mad * Number(madToSigma.toFixed(4)),
        mean: mean(x),
        sd: standardDeviation(x),
      }
    },
    // Without a least spread, which readings of a sensor are given: the row shows why they need one.
    'ST-18': ({ x, k, n_sigma }) => ({
      flagged_index_0based: hampelOutliers(x, k, n_sigma).map(({ at }) => at),
    }),
    'ST-19': ({ x, p }: { x: number[]; p: number[] }) => p.map((share) => quantile(x, share, 6)),
    'ST-28': ({ p }: { p: number[] }) => p.map(normalQuantile),
    'ST-21': ({ x, p }: { x: number[]; p: number[] }) => p.map((share) => quantile(x, share, 8)),
    'ST-24': ({ t_min, y, end_min }) => ({
      arithmetic: mean(y),
      hold_last: heldMean(t_min, y, end_min),
      trapezoid: timeWeightedMean(t_min, y),
    }),
    'ST-25': ({ t_h, y, max_gap_h }) => ({
      trapezoid_all: timeWeightedMean(t_h, y),
      trapezoid_excluding_gap: timeWeightedMean(t_h, y, max_gap_h),
    }),
    'ST-26': ({ deg }) => circularMeanDegrees(deg),
    'ST-27': ({ sigma_mm, dt_min, n }) => ({
      two_point_mm_per_day: twoPointRateNoise(sigma_mm, dt_min / 1440),
      regression_mm_per_day: regressionRateNoise(sigma_mm, dt_min / 1440, n),
    }),
  },
}

function cusum(x: readonly number[], setting: { target: number; slack: number; decision: number }) {
  const chart = cusumChart(x, setting)
  return {
    sH: chart.upper,
    sL: chart.lower,
    alarm: chart.firstSignal !== null,
    first_alarm_index_1based: chart.firstSignal === null ? null : chart.firstSignal + 1,
  }
}

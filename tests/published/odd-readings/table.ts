import { cusumChart, ewmaChart } from '#domain/statistics/control-chart.ts'
import { extremeDeviates } from '#domain/statistics/generalised-esd.ts'
import { hampelOutliers } from '#domain/statistics/hampel.ts'
import { fitLine } from '#domain/statistics/least-squares.ts'
import { findMeanChange } from '#domain/statistics/mean-change.ts'
import { medianAbsoluteDeviation } from '#domain/statistics/spread.ts'
import { accepted } from '../accepted.ts'
import type { PublishedTable } from '../published-row.ts'
import { oddReadingsRows } from './rows.ts'

export const oddReadings: PublishedTable = {
  area: 'odd readings',
  rows: oddReadingsRows,
  computed: {
    'ANO-02': ({ x, k, t }) => {
      const outliers = hampelOutliers(x, k, t)
      return { outliers_0based: outliers.map(({ at }) => at), replaced: outliers.map(({ median }) => median) }
    },
    // Without a least spread, which readings of a sensor are given: the row shows why they need one.
    'ANO-03': ({ x, k, t }) => ({
      outliers_0based: hampelOutliers(x, k, t).map(({ at }) => at),
      MAD: medianAbsoluteDeviation(x),
    }),
    'ANO-05': ({ x }) => {
      const { statistics, critical, outliers } = extremeDeviates(x, 10)
      return { R: statistics, lambda: critical, n_outliers: outliers.length }
    },
    'ANO-06': ({ x }) => {
      const chart = cusumChart(x, { target: 99, slack: 1, decision: 10 })
      return { upper: chart.upper, lower: chart.lower, signal: chart.firstSignal !== null }
    },
    'ANO-07': ({ z }) => {
      const plain = cusumChart(z, { target: 0, slack: 0.5, decision: 5 })
      const ahead = cusumChart(z, { target: 0, slack: 0.5, decision: 5, headStart: 2.5 })
      return {
        no_FIR: plain.upper,
        FIR: ahead.upper,
        first_signal_no_FIR: (plain.firstSignal ?? Number.NaN) + 1,
        first_signal_FIR: (ahead.firstSignal ?? Number.NaN) + 1,
      }
    },
    'ANO-08': ({ x }) => {
      const chart = ewmaChart(x, { target: 50, weight: 0.3, standardDeviation: 2.0539 })
      return { ewma: chart.averages, UCL: chart.upperLimit, LCL: chart.lowerLimit }
    },
    'ANO-09': ({ x }) => {
      const change = findMeanChange(x)
      return {
        last_index_before_change_1based: change?.before,
        year: 1870 + (change?.before ?? Number.NaN),
        mean_before: change?.meanBefore,
        mean_after: change?.meanAfter,
        RSS_0: change?.squaresWithout,
        RSS_1: change?.squaresWith,
        BIC_0: change?.criterionWithout,
        BIC_1: change?.criterionWith,
        conf95_index: change?.interval,
      }
    },
    'ANO-12': ({ x, y }) => {
      const fit = accepted(fitLine(x, y))
      return {
        intercept: fit.intercept,
        slope: fit.slope,
        R2: fit.rSquared,
        sigma: fit.residualStandardDeviation,
        se_slope: fit.slopeStandardError,
      }
    },
  },
}

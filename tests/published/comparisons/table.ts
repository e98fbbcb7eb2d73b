import { correlationOf, fisherInterval, rankCorrelation } from '#domain/statistics/correlation.ts'
import { independentPairs } from '#domain/statistics/independent-pairs.ts'
import { medianPolish } from '#domain/statistics/median-polish.ts'
import { theilSen } from '#domain/statistics/trend.ts'
import type { PublishedTable } from '../published-row.ts'
import { comparisonRows } from './rows.ts'

const both = ({ one, other }: { one: number[]; other: number[] }) =>
  [Float64Array.from(one), Float64Array.from(other)] as const

export const comparisons: PublishedTable = {
  area: 'comparisons',
  rows: comparisonRows,
  computed: {
    'CO-01': (inputs) => {
      const found = correlationOf(...both(inputs))
      const [low, high] = fisherInterval(found?.correlation ?? 0, found?.pairs ?? 0)
      return { r: found?.correlation, low, high }
    },
    'CO-02': (inputs) => rankCorrelation(...both(inputs))?.correlation,
    'CO-03': (inputs) => rankCorrelation(...both(inputs))?.correlation,
    'CO-04': (inputs) => independentPairs(...both(inputs)),
    'CO-05': ({ table }: { table: number[][] }) => {
      const { overall, rows, columns, residuals } = medianPolish(table.map((row) => Float64Array.from(row)))
      const left = residuals.reduce((sum, row) => row.reduce((part, one) => part + Math.abs(one), sum), 0)
      return { overall, rows, columns: Array.from(columns), left }
    },
    'CO-06': ({ x, y }) => {
      const { slope, slopeInterval, interceptOfMedians } = theilSen(x, y)
      return { slope, intercept: interceptOfMedians, low: slopeInterval?.[0], high: slopeInterval?.[1] }
    },
  },
}

import type { SeriesComparison } from '#domain/what-if/compare-series.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { formatValue } from '../../ui/format-value.ts'
import type { FigureProps } from '../../views/figure/figure-props.ts'
import { type AnalysisFigureOptions, axis, figure } from './analysis-frame.ts'

const dayMs = 86_400_000
/** Longer than so many intervals, nothing is drawn between two readings. */
const longestGapIntervals = 3

/** Sandbox less official over time, with a table of its days. */
export function whatIfDifferenceFigure(
  {
    comparison,
    official,
    sandbox,
  }: {
    readonly comparison: SeriesComparison
    readonly official: ReducedSeries
    readonly sandbox: ReducedSeries
  },
  series: { readonly unit: string; readonly decimals: number; readonly intervalMinutes: number },
  options: AnalysisFigureOptions,
): FigureProps {
  const { atEpochMs, difference, mean, count } = comparison
  const places: (readonly [number, number] | null)[] = []
  let lastAt = Number.NaN
  for (let at = 0; at < atEpochMs.length; at++) {
    const [instant, value] = [atEpochMs[at] as number, difference[at] as number]
    const gap = instant - lastAt > longestGapIntervals * series.intervalMinutes * 60_000
    if (Number.isNaN(value) || gap) places.push(null)
    if (Number.isNaN(value)) continue
    places.push([instant, value])
    lastAt = instant
  }
  return figure(
    options,
    {
      x: axis('Time', '', { scale: 'instant' }),
      y: axis('Sandbox less official', series.unit, { decimals: series.decimals, including: [0] }),
    },
    {
      curves: [{ name: 'difference', style: 'measured', places }],
      rules: mean === null || mean === 0 ? [] : [{ across: 'y', at: mean, name: 'mean' }],
      table: {
        caption: `Means of days (UTC), ${series.unit}`,
        headings: ['Day', 'Official', 'Sandbox', 'Difference'],
        rows: dayRows(official, sandbox, comparison, series.decimals),
      },
      message: count === 0 ? 'Nothing can be compared.' : null,
    },
  )
}

function dayRows(
  official: ReducedSeries,
  sandbox: ReducedSeries,
  { atEpochMs, difference }: SeriesComparison,
  decimals: number,
): readonly (readonly string[])[] {
  const columns = [
    meansOf(official.atEpochMs, official.value),
    meansOf(sandbox.atEpochMs, sandbox.value),
    meansOf(atEpochMs, difference),
  ]
  const days = [...new Set(columns.flatMap((means) => [...means.keys()]))].sort((one, other) => one - other)
  return days.map((day) => [
    new Date(day * dayMs).toISOString().slice(0, 10),
    ...columns.map((means) => formatValue(means.get(day) ?? null, decimals)),
  ])
}

function meansOf(atEpochMs: Float64Array, value: Float64Array): ReadonlyMap<number, number> {
  const sums = new Map<number, { sum: number; count: number }>()
  for (let at = 0; at < value.length; at++) {
    const one = value[at] as number
    if (Number.isNaN(one)) continue
    const day = Math.floor((atEpochMs[at] as number) / dayMs)
    const known = sums.get(day) ?? { sum: 0, count: 0 }
    known.sum += one
    known.count++
    sums.set(day, known)
  }
  return new Map([...sums].map(([day, { sum, count }]) => [day, sum / count]))
}

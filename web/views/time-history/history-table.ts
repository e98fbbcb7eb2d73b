import { formatInstant } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import type { HistorySeries, HistoryTrace, TimeHistoryProps } from './history-props.ts'
import { rowNotes } from './history-readout.ts'
import { joinedTraces } from './joined-history.ts'

export interface TableOfHistory {
  readonly caption: string
  readonly headings: readonly string[]
  readonly rows: readonly (readonly string[])[]
}

/** Rows that a table holds at most; a narrower window shows the rest. */
export const mostTableRows = 2000

/** The numbers of the drawing, latest first. */
export function historyTable(props: TimeHistoryProps): TableOfHistory {
  const all = [...props.series, ...props.companions.map((companion) => companion.series)]
  const found: { at: number; row: string[] }[] = []
  for (const { series, trace, name, remark } of all.flatMap((one) => rowsOf(one, props.traces))) {
    for (let row = 0; row < trace.atEpochMs.length; row++) {
      const at = trace.atEpochMs[row] as number
      if (at < props.fromEpochMs || at > props.untilEpochMs) continue
      const value = (of: Float64Array) => formatValue(of[row] ?? null, series.decimals)
      const bucket = { raw: 'reading', hour: 'hour mean', day: 'day mean' }[trace.resolution]
      const range = trace.resolution === 'raw' ? '' : `${value(trace.low)} to ${value(trace.high)}`
      const valueText = withUnit(value(trace.value), series.unit)
      found.push({
        at,
        row: [
          formatInstant(at, props.timeZone),
          name,
          valueText,
          range,
          bucket,
          [...remark, ...rowNotes(series, trace, row)].join('; '),
        ],
      })
    }
  }
  found.sort((left, right) => right.at - left.at)
  const shown = found.slice(0, mostTableRows)
  const left = found.length - shown.length
  return {
    caption: `${found.length} rows between ${formatInstant(props.fromEpochMs, props.timeZone)} and ${formatInstant(
      props.untilEpochMs,
      props.timeZone,
    )}, ${props.timeZone}${left > 0 ? `; the latest ${shown.length} are listed, zoom in for the others` : ''}`,
    headings: [
      `Site time (${props.timeZone})`,
      'Series',
      'Value',
      'Lowest to highest',
      'What it is',
      'Remarks',
    ],
    rows: shown.map((one) => one.row),
  }
}

interface Listed {
  readonly series: HistorySeries
  readonly trace: HistoryTrace
  readonly name: string
  readonly remark: readonly string[]
}

/** A series' own readings, and those of earlier ones that are drawn on its level. */
function rowsOf(series: HistorySeries, traces: readonly HistoryTrace[]): readonly Listed[] {
  const name = (of: HistorySeries) => `${of.name} ${of.measure.toLowerCase()}`
  const own = traces.filter((trace) => trace.series === series.series).slice(0, 1)
  return [
    ...own.map((trace) => ({ series, trace, name: name(series), remark: [] })),
    ...joinedTraces(series, traces).map(({ joined, trace }) => ({
      series: joined.series,
      trace,
      name: `${name(joined.series)}, on the level of ${series.name}`,
      remark: [joined.label],
    })),
  ]
}

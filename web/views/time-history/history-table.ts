import { formatInstant } from '../../ui/format-instant.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import type { TimeHistoryProps } from './history-props.ts'
import { rowNotes } from './history-readout.ts'

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
  for (const series of all) {
    const trace = props.traces.find((one) => one.series === series.series)
    if (!trace) continue
    for (let row = 0; row < trace.atEpochMs.length; row++) {
      const at = trace.atEpochMs[row] as number
      if (at < props.fromEpochMs || at > props.untilEpochMs) continue
      const value = (of: Float64Array) => formatValue(of[row] ?? null, series.decimals)
      const bucket = { raw: 'reading', hour: 'hour mean', day: 'day mean' }[trace.resolution]
      const range = trace.resolution === 'raw' ? '' : `${value(trace.low)} to ${value(trace.high)}`
      const name = `${series.name} ${series.measure.toLowerCase()}`
      const valueText = withUnit(value(trace.value), series.unit)
      found.push({
        at,
        row: [
          formatInstant(at, props.timeZone),
          name,
          valueText,
          range,
          bucket,
          rowNotes(series, trace, row).join('; '),
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

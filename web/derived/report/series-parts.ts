import type { ChannelReadings } from '#domain/report/channel-completeness.ts'
import type { Columns } from '../../engine/columns.ts'

/** An answer in order of series, apart by series: number to its readings. */
export function readingsBySeries(columns: Columns): ReadonlyMap<number, ChannelReadings> {
  const series = columns.number('series')
  const parts = new Map<number, ChannelReadings>()
  let start = 0
  for (let row = 1; row <= columns.rows; row++) {
    if (row < columns.rows && series[row] === series[start]) continue
    const part = (name: string) => columns.number(name).subarray(start, row)
    parts.set(series[start] as number, {
      atEpochMs: part('at_ms'),
      value: part('value'),
      receivedAfterSeconds: part('received_after_s'),
    })
    start = row
  }
  return columns.rows === 0 ? new Map() : parts
}

/** Numbers by series, of an answer with a row a series. */
export function numberBySeries(columns: Columns, name: string): ReadonlyMap<number, number> {
  const [series, numbers] = [columns.number('series'), columns.number(name)]
  return new Map(Array.from(series, (one, row) => [one, numbers[row] as number]))
}

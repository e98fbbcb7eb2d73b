import { createHash } from 'node:crypto'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { DuckDBInstance } from '@duckdb/node-api'
import type { Resolution } from '#contract/slice-columns.ts'
import type { Slice } from '#contract/slice-list.ts'

/** One reading of a made-up series. Null value: read, but not to be turned into a value. */
export interface MadeReading {
  readonly series: number
  readonly atEpochMs: number
  readonly value: number | null
  readonly quality?: number
  readonly receivedAfterSeconds?: number
  readonly flags?: number
}

export interface MadeSlices {
  readonly slices: readonly Slice[]
  readonly bytesOf: (slice: Slice) => Promise<Uint8Array>
  readonly remove: () => Promise<void>
}

/** Writes slices of all three resolutions, as `contract/slice-columns.ts` has them, of readings in SQL. */
export async function makeSlices(readingsSql: string): Promise<MadeSlices> {
  const folder = await mkdtemp(join(tmpdir(), 'slices-'))
  const instance = await DuckDBInstance.create(':memory:')
  const connection = await instance.connect()
  await connection.run(`create table reading as ${readingsSql}`)
  const months = await connection.runAndReadAll(
    `select strftime("at", '%Y-%m') as month from reading group by all order by all`,
  )
  const slices: Slice[] = []
  for (const [month] of months.getRowsJS() as [string][])
    for (const resolution of ['raw', 'hour', 'day'] as const) {
      const path = join(folder, `${resolution}-${month}.duckdb`)
      await connection.run(`attach '${path}' as slice (storage_version 'v1.4.0')`)
      await connection.run(contentSql(resolution, month))
      await connection.run('detach slice')
      const bytes = await readFile(path)
      slices.push({
        resolution,
        month,
        url: pathToFileURL(path).href,
        bytes: bytes.byteLength,
        rows: 1,
        sha256: createHash('sha256').update(bytes).digest('hex'),
        fromEpochMs: Date.parse(`${month}-01T00:00:00Z`),
        untilEpochMs: nextMonth(month),
      })
    }
  connection.closeSync()
  instance.closeSync()
  return {
    slices,
    bytesOf: async (slice) => new Uint8Array(await readFile(new URL(slice.url))),
    remove: () => rm(folder, { recursive: true }),
  }
}

/** SQL of a few readings written out. */
export function readingsSql(readings: readonly MadeReading[]): string {
  const rows = readings.map(
    (one) =>
      `(${one.series}, ${one.atEpochMs}, ${one.value ?? 'null'}, ${one.quality ?? 0}, ${one.receivedAfterSeconds ?? 60}, ${one.flags ?? 0})`,
  )
  return `select series::integer as series, epoch_ms(at_ms::bigint) as "at", value::double as value,
    quality::utinyint as quality, received_after_s::integer as received_after_s,
    flags::usmallint as flags
    from (values ${rows.join(', ')}) made(series, at_ms, value, quality, received_after_s, flags)`
}

function contentSql(resolution: Resolution, month: string): string {
  const of = `from reading where strftime("at", '%Y-%m') = '${month}'`
  if (resolution === 'raw')
    return `create table slice.value as
      select series, "at", value, quality, received_after_s, flags ${of} order by series, "at"`
  // Base table and view, as slices have them: the columns are promised by the view alone. The last of a bucket is the last value.
  return `
    create table slice.bucket as
      select series, date_trunc('${resolution}', "at")::timestamp as "at", count(value)::integer as n,
        avg(value) as mean, min(value) as low, max(value) as high,
        arg_max(value, "at") filter (value is not null) as last,
        max("at") filter (value is not null) as last_at, bit_or(quality)::utinyint as quality, bit_or(flags)::usmallint as flags
      ${of} group by all order by series, "at";
    use slice; create view rollup as select * from bucket; use memory`
}

function nextMonth(month: string): number {
  const [year, number] = month.split('-').map(Number) as [number, number]
  return Date.UTC(year, number, 1)
}

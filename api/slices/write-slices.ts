import { createHash, randomUUID } from 'node:crypto'
import { createReadStream } from 'node:fs'
import { mkdir, rename, rm, stat } from 'node:fs/promises'
import { join } from 'node:path'
import type { DuckDBConnection } from '@duckdb/node-api'
import type { Resolution } from '#contract/slice-columns.ts'
import type { Slice } from '#contract/slice-list.ts'
import { receiptKeptToMs } from '#domain/receipt/known-by.ts'

/**
 * Smallest block for which DuckDB still packs BIGINT columns by bits (tried: 16 and 32 KiB store them whole,
 * three times the size), and few enough rows a group that one series touches few blocks.
 */
const attachOptions = "block_size 65536, row_group_size 122880, storage_version 'v1.2.0'"

/**
 * Writes what `reduced` and `flagged` hold of one month as three slice files, each under the hash of its content,
 * and returns their entries. Sorted by series and time: a history touches few blocks, and values of one
 * series compress well beside each other.
 */
export async function writeSlices(
  connection: DuckDBConnection,
  folder: string,
  urlPrefix: string,
  month: { name: string; fromEpochMs: number; untilEpochMs: number },
): Promise<Slice[]> {
  await mkdir(folder, { recursive: true })
  const start = BigInt(month.fromEpochMs) * 1000n
  const slices: Slice[] = []
  for (const resolution of ['raw', 'hour', 'day'] as const) {
    const temporary = join(folder, `.${randomUUID()}.duckdb`)
    await connection.run(`attach '${quoted(temporary)}' as slice (${attachOptions})`)
    try {
      await connection.run(resolution === 'raw' ? packedReadings(start) : packedBuckets(resolution, start))
      await connection.run(resolution === 'raw' ? readingsView(start) : bucketsView(start))
      await connection.run('checkpoint slice')
    } finally {
      await connection.run('detach slice')
    }
    const counted = await connection.runAndReadAll(
      resolution === 'raw'
        ? 'select count(*)::integer from reduced'
        : `select count(distinct (series, date_trunc('${resolution}', "at")))::integer from reduced`,
    )
    const sha256 = await hashOf(temporary)
    const name = sliceName(resolution, month.name, sha256)
    await rename(temporary, join(folder, name))
    await rm(`${temporary}.wal`, { force: true })
    slices.push({
      resolution,
      month: month.name,
      url: `${urlPrefix}/${name}`,
      bytes: (await stat(join(folder, name))).size,
      rows: Number(counted.getRows()[0]?.[0]),
      sha256,
      fromEpochMs: month.fromEpochMs,
      untilEpochMs: month.untilEpochMs,
    })
  }
  return slices
}

const sliceName = (resolution: Resolution, month: string, sha256: string): string =>
  `${resolution}-${month}.${sha256.slice(0, 16)}.duckdb`

/*
 * What is stored is small whole numbers, which DuckDB packs to the bits they need; the views give them
 * back as the columns of the contract. Values are counted in units of 10^-decimals, instants as hour of
 * the month and second of the hour. Both are exact: values are already rounded to their decimals.
 */
const scaled = (value: string) => `(round(${value} * ${powerOfTen}))::bigint`
const powerOfTen =
  'case decimals when 0 then 1 when 1 then 10 when 2 then 100 when 3 then 1000 when 4 then 10000 when 5 then 100000 else 1000000 end'
const unscaled = (column: string) => `${column} / (${powerOfTen})::double`

const packedTime = (at: string, start: bigint) => `
    ((epoch_us(${at}) - ${start}) // 3600000000)::usmallint as hour_of_month,
    ((epoch_us(${at}) - ${start}) % 3600000000 // 1000000)::usmallint as second_of_hour,
    ((epoch_us(${at}) - ${start}) % 1000000)::integer as microsecond`
const unpackedTime = (start: bigint) =>
  `make_timestamp(${start} + hour_of_month * 3600000000 + second_of_hour * 1000000::bigint + microsecond)`

/** Receipt within a quarter of an hour is the rule and is stored as null, as the view gives it; so is the want of marks. */
const packedReadings = (start: bigint) => `
  create table slice.packed_reading as
  select series, decimals::utinyint as decimals, ${packedTime('"at"', start)}, ${scaled('value')} as scaled, quality,
    case when received_after_s between 0 and ${receiptKeptToMs / 1000} then null else received_after_s end as received_after_s, flags
  from reduced left join flagged using (series, "at") order by series, "at"`

const readingsView = (start: bigint) => `
  create view slice.value as
  select series, ${unpackedTime(start)} as "at", ${unscaled('scaled')} as value, quality, received_after_s,
    coalesce(flags, 0)::usmallint as flags
  from packed_reading`

/** A bucket of one reading stores it once: low, high and last are null where n = 1, and the view fills them in. */
const packedBuckets = (resolution: 'hour' | 'day', start: bigint) => `
  create table slice.packed_bucket as
  with bucket as (
    select series, any_value(decimals) as decimals, date_trunc('${resolution}', "at") as "at", count(value) as n,
      avg(value) as mean, min(value) as low, max(value) as high,
      arg_max(value, "at") filter (value is not null) as last,
      max("at") filter (value is not null) as last_at, bit_or(quality) as quality,
      bit_or(flags) as flags
    from reduced left join flagged using (series, "at") group by series, date_trunc('${resolution}', "at")
  )
  select series, decimals::utinyint as decimals, ${packedTime('"at"', start)}, n::integer as n,
    ${scaled('mean')} as mean,
    case when n > 1 then ${scaled('low')} end as low,
    case when n > 1 then ${scaled('high')} end as high,
    case when n > 1 then ${scaled('last')} end as last,
    ((epoch_us(last_at) - epoch_us("at")) // 1000000)::integer as last_after_s, quality, flags
  from bucket order by series, "at"`

const bucketsView = (start: bigint) => `
  create view slice.rollup as
  select series, ${unpackedTime(start)} as "at", n, ${unscaled('mean')} as mean,
    ${unscaled('coalesce(low, mean)')} as low, ${unscaled('coalesce(high, mean)')} as high,
    ${unscaled('coalesce(last, mean)')} as last,
    make_timestamp(epoch_us(${unpackedTime(start)}) + last_after_s * 1000000::bigint) as last_at, quality,
    coalesce(flags, 0)::usmallint as flags
  from packed_bucket`

async function hashOf(path: string): Promise<string> {
  const hash = createHash('sha256')
  for await (const chunk of createReadStream(path)) hash.update(chunk as Uint8Array)
  return hash.digest('hex')
}

const quoted = (path: string): string => path.replaceAll("'", "''")

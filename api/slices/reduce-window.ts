import type { DuckDBConnection } from '@duckdb/node-api'
import { assert } from '#domain/assert.ts'
import type { Reach } from '#domain/flags/reach.ts'
import { secondsToReceiptSql } from '#domain/receipt/known-by.ts'
import { chainSql } from '#domain/reduction/chain-sql.ts'
import { quality } from '#domain/reduction/quality.ts'
import { insertRows } from './insert-rows.ts'
import { type Link, uncalibrated } from './links.ts'

/**
 * How far before the window companions are looked for; no barometer or thermistor may be older than this,
 * whatever its calibration says. Surveys that stand for later instants may be older: see `Recipe`.
 */
export const lookBackMinutes = 24 * 60

/**
 * Reduces the raw readings of `readings` (channel, at, raw, received_at; it must reach `lookBackMinutes`
 * before the first reading that is asked for, and as far as surveys of `heldSeries` may be old) to table `reduced` (series, at, value, quality,
 * received_after_s, decimals; values not yet rounded) for
 * [fromEpochMs, untilEpochMs). Channels of one chain shape are reduced by one query, their coefficients
 * joined in; a barometer is looked up once for each distinct instant, not once a reading. The values of `heldSeries`,
 * also those before the window, are in table `held` afterwards, and the values around the window, as far as the
 * `reaches` of series ask for them, in table `beyond`, which has the columns of `reduced`.
 */
export async function reduceWindow(
  connection: DuckDBConnection,
  readings: string,
  links: readonly Link[],
  fromEpochMs: number,
  untilEpochMs: number,
  heldSeries: ReadonlySet<number> = new Set(),
  reaches: ReadonlyMap<number, Reach> = new Map(),
): Promise<void> {
  const from = micros(fromEpochMs)
  const until = micros(untilEpochMs)
  await connection.run(
    'create or replace temp table reduced (series integer, "at" timestamp, value double, quality utinyint, received_after_s integer, decimals integer)',
  )
  await writeLinks(connection, links, heldSeries, (series) => {
    const { beforeMinutes, afterMinutes } = reaches.get(series) ?? { beforeMinutes: 0, afterMinutes: 0 }
    return [micros(fromEpochMs - beforeMinutes * 60_000), micros(untilEpochMs + afterMinutes * 60_000)]
  })
  await linkReadings(connection, readings)

  const companionsOf = new Set(
    links
      .flatMap((link) => [link.temperatureSeries, link.barometerSeries])
      .filter((series) => series !== null),
  )
  const shapes = groupByShape(links)
  const accompanied = shapes.filter((shape) => shape.needsCompanions)
  assert(
    accompanied.every((shape) => shape.links.every((link) => !companionsOf.has(link.series))),
    'a series that serves as a companion has companions of its own',
  )

  for (const shape of shapes) if (!shape.needsCompanions) await connection.run(insertShape(shape))
  await findCompanions(connection)
  for (const shape of accompanied) await connection.run(insertShape(shape))
  await connection.run(`
    create or replace temp table held as
    select * from reduced where "at" < ${until} and list_contains([${[...heldSeries].join(', ')}]::integer[], series)`)
  const outside = `"at" < ${from} or "at" >= ${until}`
  await connection.run(`create or replace temp table beyond as select * from reduced where ${outside}`)
  await connection.run(`delete from reduced where ${outside}`)
}

/** Links whose chains are the same steps in the same order, so that one query reduces them all. */
interface ShapeGroup {
  readonly number: number
  readonly name: string
  readonly links: readonly Link[]
  readonly example: Link
  readonly needsCompanions: boolean
}

function groupByShape(links: readonly Link[]): readonly ShapeGroup[] {
  const names = [...new Set(links.map((link) => link.shape))]
  return names.map((name, number) => {
    const members = links.filter((link) => link.shape === name)
    const [example] = members
    assert(example, `no link of shape ${name}`)
    const needsCompanions = members.some(
      (link) => link.temperatureSeries !== null || link.barometerSeries !== null,
    )
    return { number, name, links: members, example, needsCompanions }
  })
}

/** One query for all channels of a shape. */
function insertShape(shape: ShapeGroup): string {
  const { value, fault, bits } = expressions(shape)
  return `
    insert into reduced
    select series, "at", value,
      (${bits}
        | case when value < range_low or value > range_high then ${quality.outOfRange} else 0 end
        | case when received_after_s > late_after_s then ${quality.receivedLate} else 0 end)::utinyint,
      received_after_s, decimals
    from (
      select *, ${value} as value, ${fault} as sensor_fault from (
        select k.*, r."at", r.raw, r.received_after_s,
          ${shape.needsCompanions ? youngEnough('r.temperature_value', 'r.temperature_at', 'temperature_age') : 'null::double'} as temperature_value,
          ${shape.needsCompanions ? youngEnough('b.value', 'b.read_at', 'barometer_age') : 'null::double'} as barometer_value
        from (${shape.needsCompanions ? withTemperature : 'from linked_reading r'} where r.shape = ${shape.number}) r
        join link k on k.link = r.link
        ${shape.needsCompanions ? 'left join barometer_at b on b.series = k.barometer and b."at" = r."at"' : ''}
      )
    )`
}

/** SQL of a shape's value and fault, from the joined columns, and of its quality, from the finished ones. */
function expressions(shape: ShapeGroup): { value: string; fault: string; bits: string } {
  if (shape.name === uncalibrated)
    return { value: 'null::double', fault: 'false', bits: String(quality.noCalibration) }
  const { value, fault, qualityOf } = chainSql(shape.example.steps, {
    raw: 'raw',
    coefficient: (at: number) => `c${at}`,
    temperatureDegC: 'temperature_value',
    barometerKpa: 'barometer_value',
  })
  return {
    value,
    fault,
    bits: `${qualityOf('value', 'sensor_fault')}::integer`,
  }
}

/*
 * A barometer serves many, so its last value is found once an instant; a thermistor serves its own sensor, so it is found
 * reading by reading, before anything wide is joined on. Ages are asked outside: as conditions of the joins they would
 * hold every reading against every companion.
 */
const withTemperature = `
          select r.*, t.value as temperature_value, t."at" as temperature_at
          from linked_reading r asof left join companion t on t.series = r.temperature and r."at" >= t."at"`

const youngEnough = (value: string, readAt: string, age: string): string =>
  `case when epoch_us(r."at") - epoch_us(${readAt}) <= k.${age} * 60000000 then ${value} end`

/** The readings of the window and around it each with its link, found once for all shapes; companions as far back as there are. */
async function linkReadings(connection: DuckDBConnection, readings: string): Promise<void> {
  await connection.run(`
    create or replace temp table linked_reading as
    select k.link, k.shape, k.temperature, r."at", r.raw,
      ${secondsToReceiptSql('r.received_at', 'r."at"')} as received_after_s
    from ${readings} r
    join link k on k.channel = r.channel and r."at" >= k.from_at and r."at" < k.until_at
    where r."at" < k.reads_until and (r."at" >= k.reads_from or k.is_companion)`)
}

/** Values of companions, and the last one of each barometer at each distinct instant that asks for it. */
async function findCompanions(connection: DuckDBConnection): Promise<void> {
  await connection.run(`
    create or replace temp table companion as
    select series, "at", value from reduced where value is not null
      and series in (select unnest([temperature, barometer]) from link)`)
  await connection.run(`
    create or replace temp table barometer_at as
    with asked as (
      select distinct k.barometer as series, r."at"
      from linked_reading r join link k on k.link = r.link
      where r."at" >= k.reads_from and k.barometer is not null
    )
    select a.series, a."at", n.value, n."at" as read_at
    from asked a asof join companion n on a.series = n.series and a."at" >= n."at"`)
}

async function writeLinks(
  connection: DuckDBConnection,
  links: readonly Link[],
  heldSeries: ReadonlySet<number>,
  readsOf: (series: number) => readonly [from: string, until: string],
): Promise<void> {
  const width = Math.max(1, ...links.map((link) => link.coefficients.length))
  const coefficients = Array.from({ length: width }, (_, at) => `c${at} double`)
  const shapes = [...new Set(links.map((link) => link.shape))]
  const companions = new Set(links.flatMap((link) => [link.temperatureSeries, link.barometerSeries]))
  await connection.run(`create or replace temp table link (
    link integer, channel integer, series integer, from_at timestamp, until_at timestamp, shape integer, temperature integer,
    temperature_age double, barometer integer, barometer_age double, range_low double, range_high double, decimals integer,
    late_after_s double, is_companion boolean, reads_from timestamp, reads_until timestamp, ${coefficients.join(', ')})`)
  const rows = links.map((link, number) =>
    [
      number,
      link.channel,
      link.series,
      micros(link.fromEpochMs),
      micros(link.untilEpochMs),
      shapes.indexOf(link.shape),
      link.temperatureSeries ?? 'null',
      link.temperatureMaximumAgeMinutes ?? 'null',
      link.barometerSeries ?? 'null',
      link.barometerMaximumAgeMinutes ?? 'null',
      link.rangeLow ?? 'null',
      link.rangeHigh ?? 'null',
      link.decimals,
      link.lateAfterMinutes * 60,
      companions.has(link.series) || heldSeries.has(link.series),
      ...readsOf(link.series),
      ...Array.from({ length: width }, (_, at) => double(link.coefficients[at])),
    ].join(', '),
  )
  await insertRows(connection, 'link', rows)
}

/** A double exactly as JavaScript holds it. */
function double(value: number | undefined): string {
  if (value === undefined) return 'null'
  assert(Number.isFinite(value), `coefficient ${value}`)
  return `'${value}'::double`
}

export const micros = (epochMs: number): string => `make_timestamp(${Math.round(epochMs * 1000)})`

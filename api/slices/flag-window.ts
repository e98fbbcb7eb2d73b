import type { DuckDBConnection } from '@duckdb/node-api'
import { bitsSql } from '#domain/flags/flag-reading.ts'
import { limitColumns } from '#domain/flags/limits.ts'
import { type ReadingCheck, readingChecks } from '#domain/flags/reading-checks.ts'
import { sqlNumber } from '#domain/reduction/sql-number.ts'
import type { CheckedSeries } from './checked-series.ts'
import { insertRows } from './insert-rows.ts'

/** Checks by what they look at besides the reading itself: nothing, its neighbours in time, a series beside it. */
const alone: readonly ReadingCheck[] = ['range', 'clock']
const besides: readonly ReadingCheck[] = ['duplicate', 'temperature']
const inTime = readingChecks.filter((check) => !alone.includes(check) && !besides.includes(check))

/**
 * Marks what the checks notice in `values` (series, at, value, received_after_s, decimals; it must reach before and
 * after the window as far as `reachOfChecks` says) in table `flagged` (series, at, flags) for [fromEpochMs, untilEpochMs):
 * only readings with a mark have a row. `values` is read and never changed; table `checked_series` holds `checked`
 * (`writeChecks`).
 */
export async function flagWindow(
  connection: DuckDBConnection,
  values: string,
  checked: readonly CheckedSeries[],
  fromEpochMs: number,
  untilEpochMs: number,
): Promise<void> {
  const inside = checked.filter((one) => one.fromEpochMs < untilEpochMs && fromEpochMs < one.untilEpochMs)
  const asked = (which: readonly ReadingCheck[]) =>
    which.filter((check) => inside.some(({ limits }) => limits[check] !== undefined))
  const window = `v."at" >= ${instant(fromEpochMs)} and v."at" < ${instant(untilEpochMs)}`
  const found = [
    marked(asked(alone), aloneSql(values, window)),
    marked(asked(inTime), inTimeSql(values, window, fromEpochMs)),
    marked(asked(besides), besideSql(values, window, asked(besides))),
  ].filter((sql) => sql !== null)
  await connection.run(`
    create or replace temp table flagged as
    select series, "at", bit_or(flags)::usmallint as flags
    from (${found.length > 0 ? found.join(' union all ') : 'select null::integer as series, null::timestamp as "at", 0 as flags where false'})
    group by series, "at" order by series, "at"`)
}

/** Rows of `readings` that some of these checks mark. */
const marked = (which: readonly ReadingCheck[], readings: string): string | null =>
  which.length === 0
    ? null
    : `select * from (select series, "at", ${bitsSql(which)} as flags from (${readings})) where flags <> 0`

const inForce = 'c.series = v.series and v."at" >= c.from_at and v."at" < c.until_at'

const aloneSql = (values: string, window: string) => `
  select c.*, v."at", v.value, v.received_after_s
  from ${values} v join checked_series c on ${inForce} where v.value is not null and ${window}`

/*
 * Neighbours are found in narrow rows, and only of series with limits that ask for them; what is wide is joined on
 * afterwards. A reading that differs from both its neighbours is a run by itself: only the few others are looked through
 * for the beginning of their run. Where nothing is in reach before a reading, its gap is as long as the reach at least,
 * which is beyond any limit.
 */
const inTimeSql = (values: string, window: string, fromEpochMs: number) => `
  with known as (
    select v.series, v."at", epoch_us(v."at") as at_us, v.value,
      ${digits('v.value', 'v.decimals')} as digits, s.neighbour_us
    from ${values} v join (
      select series, max(neighbour_us) as neighbour_us from checked_series where looks_around group by series
    ) s on s.series = v.series
    where v.value is not null
  ),
  neighbours as materialized (
    select *, lag(at_us) over own as before_us, lag(value) over own as before_any,
      lead(at_us) over own as after_us, lead(value) over own as after_any, lag(digits) over own as before_digits,
      lead(digits) over own as after_digits
    from known window own as (partition by series order by "at")
  ),
  alike as (
    select series, at_us, max(case when digits is distinct from before_digits or at_us - before_us > neighbour_us then at_us end)
      over (partition by series order by at_us rows unbounded preceding) as unchanged_since_us
    from neighbours where digits = before_digits or digits = after_digits
  )
  select c.*, v."at", v.at_us, v.value, v.before_us, v.after_us,
    coalesce(alike.unchanged_since_us, v.at_us) as unchanged_since_us,
    greatest(c.wired_since_us, ${Math.round(fromEpochMs * 1000)} - c.reach_us) as due_since_us,
    case when v.at_us - v.before_us <= v.neighbour_us then v.before_any end as before_value,
    case when v.after_us - v.at_us <= v.neighbour_us then v.after_any end as after_value
  from neighbours v join checked_series c on ${inForce} 
  left join alike on alike.series = v.series and alike.at_us = v.at_us where ${window}`

/** The whole number of the last decimal shown; as in `checkedReadings`. */
const digits = (value: string, decimals: string) => `round(${value} * pow(10, ${decimals}))`

/** Ages are asked outside the joins: as conditions of them they would hold every reading against every companion. */
function besideSql(values: string, window: string, which: readonly ReadingCheck[]): string {
  const last = (name: string, needed: boolean) =>
    needed
      ? {
          value: `case when epoch_us(r."at") - epoch_us(${name}_at."at") <= r.companion_age_us then ${name}_at.value end`,
          join: `asof left join companion ${name}_at on ${name}_at.series = r.${name} and r."at" >= ${name}_at."at"`,
        }
      : { value: 'null::double', join: '' }
  const duplicate = last('duplicate', which.includes('duplicate'))
  const temperature = last('temperature', which.includes('temperature'))
  return `
    with companion as (
      select series, "at", value from ${values} where value is not null
        and series in (select unnest([duplicate, temperature]) from checked_series)
    )
    select r.*, ${duplicate.value} as duplicate_value, ${temperature.value} as temperature_value
    from (
      select c.*, v."at", v.value from ${values} v join checked_series c on ${inForce}
      where v.value is not null and ${window} and coalesce(c.duplicate, c.temperature) is not null
    ) r ${duplicate.join} ${temperature.join}`
}

/** Writes how series are checked as table `checked_series`, once for all windows of a connection. */
export async function writeChecks(
  connection: DuckDBConnection,
  checked: readonly CheckedSeries[],
): Promise<void> {
  const columns = readingChecks.flatMap((_, at) => Object.values(limitColumns(at)))
  await connection.run(`create or replace temp table checked_series (series integer, from_at timestamp, until_at timestamp,
    looks_around boolean, neighbour_us bigint, wired_since_us bigint, reach_us bigint, duplicate integer, temperature integer,
    companion_age_us bigint, ${columns.map((name) => `${name} double`).join(', ')})`)
  const rows = checked.map((one) => {
    const limits = readingChecks.flatMap((check) => {
      const own = one.limits[check]
      return [own?.suspectBelow, own?.suspectAbove, own?.failBelow, own?.failAbove]
    })
    return [
      one.series,
      instant(one.fromEpochMs),
      instant(one.untilEpochMs),
      inTime.some((check) => one.limits[check] !== undefined),
      Math.round(one.neighbourMinutes * 60_000_000),
      Math.round(one.wiredSinceEpochMs * 1000),
      Math.round(one.reach.beforeMinutes * 60_000_000),
      one.duplicateSeries ?? 'null',
      one.temperatureSeries ?? 'null',
      Math.round(one.companionMaximumAgeMinutes * 60_000_000),
      ...limits.map((limit) => (limit == null ? 'null' : sqlNumber(limit))),
    ].join(', ')
  })
  await insertRows(connection, 'checked_series', rows)
}

const instant = (epochMs: number): string => `make_timestamp(${Math.round(epochMs * 1000)})`

import type { DuckDBConnection } from '@duckdb/node-api'
import { bitsSql, type CheckLimits } from '#domain/flags/flag-reading.ts'
import { limitColumns } from '#domain/flags/limits.ts'
import { readingChecks } from '#domain/flags/reading-checks.ts'
import { sqlNumber } from '#domain/reduction/sql-number.ts'

/** How the readings of one series are checked, by the store's numbers for series. */
export interface CheckedSeries {
  readonly series: number
  readonly limits: CheckLimits
  /** From when on readings were due: the beginning of its wiring, or as far back as is looked. */
  readonly dueSinceEpochMs: number
  readonly duplicateSeries: number | null
  readonly temperatureSeries: number | null
  /** Oldest reading of either that still counts as beside this one. */
  readonly companionMaximumAgeMinutes: number
}

/**
 * Marks what the checks notice in `values` (series, at, value, received_after_s, decimals; it must reach before and
 * after the window as far as the checks look) in table `flagged` (series, at, flags) for [fromEpochMs, untilEpochMs):
 * only readings with a mark have a row. `values` is read and never changed.
 */
export async function flagWindow(
  connection: DuckDBConnection,
  values: string,
  checked: readonly CheckedSeries[],
  fromEpochMs: number,
  untilEpochMs: number,
): Promise<void> {
  await writeChecked(connection, checked)
  const which = readingChecks.filter((check) => checked.some(({ limits }) => limits[check] !== undefined))
  // Joins that no check asks for are left out: they cost more than the checks themselves.
  const last = (name: string, needed: boolean) =>
    needed
      ? {
          value: `case when r.at_us - epoch_us(${name}_at."at") <= r.companion_age_us then ${name}_at.value end`,
          join: `asof left join companion ${name}_at on ${name}_at.series = r.${name} and r."at" >= ${name}_at."at"`,
        }
      : { value: 'null::double', join: '' }
  const duplicate = last('duplicate', which.includes('duplicate'))
  const temperature = last('temperature', which.includes('temperature'))
  const known = `select c.*, v."at", v.value, v.received_after_s, v.decimals, epoch_us(v."at") as at_us,
        v."at" >= ${instant(fromEpochMs)} and v."at" < ${instant(untilEpochMs)} as inside
      from ${values} v join checked_series c on c.series = v.series where v.value is not null`
  await connection.run(`
    create or replace temp table flagged as
    with known as (${known}),
    neighbours as (
      select *, lag(at_us) over own as before_us, lag(value) over own as before_value,
        lead(at_us) over own as after_us, lead(value) over own as after_value,
        round(value * pow(10, decimals)) is distinct from round(lag(value) over own * pow(10, decimals)) as changed
      from known window own as (partition by series order by "at")
    ),
    runs as (
      select *, max(case when changed then at_us end)
        over (partition by series order by "at" rows unbounded preceding) as unchanged_since_us
      from neighbours
    ),
    companion as (select series, "at", value from ${values} where value is not null),
    beside as (
      select r.*,
        ${duplicate.value} as duplicate_value, ${temperature.value} as temperature_value
      from (select * from runs where inside) r ${duplicate.join} ${temperature.join}
    )
    select series, "at", flags
    from (select series, "at", (${bitsSql(which)})::usmallint as flags from beside)
    where flags <> 0 order by series, "at"`)
}

async function writeChecked(connection: DuckDBConnection, checked: readonly CheckedSeries[]): Promise<void> {
  const columns = readingChecks.flatMap((_, at) => Object.values(limitColumns(at)))
  await connection.run(`create or replace temp table checked_series (series integer, due_since_us bigint,
    duplicate integer, temperature integer, companion_age_us bigint, ${columns.map((name) => `${name} double`).join(', ')})`)
  const rows = checked.map((one) => {
    const limits = readingChecks.flatMap((check) => {
      const own = one.limits[check]
      return [own?.suspectBelow, own?.suspectAbove, own?.failBelow, own?.failAbove]
    })
    return [
      one.series,
      Math.round(one.dueSinceEpochMs * 1000),
      one.duplicateSeries ?? 'null',
      one.temperatureSeries ?? 'null',
      Math.round(one.companionMaximumAgeMinutes * 60_000_000),
      ...limits.map((limit) => (limit == null ? 'null' : sqlNumber(limit))),
    ].join(', ')
  })
  if (rows.length > 0)
    await connection.run(`insert into checked_series values ${rows.map((row) => `(${row})`).join(',\n')}`)
}

const instant = (epochMs: number): string => `make_timestamp(${Math.round(epochMs * 1000)})`

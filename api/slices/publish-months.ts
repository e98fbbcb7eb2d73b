import type { DuckDBConnection } from '@duckdb/node-api'
import type { Store } from '../store/store.ts'
import { addDerivedSeries } from './derive-window.ts'
import { flagDerivedSeries, flagHeld } from './flag-derived.ts'
import { flagWindow, writeChecks } from './flag-window.ts'
import { type Month, monthOf, monthsBetween } from './months.ts'
import type { PublishReport } from './publisher.ts'
import { type Recipe, recipeOfMonth } from './recipe.ts'
import { reduceWindow } from './reduce-window.ts'
import {
  fileNames,
  type Latest,
  type PublishedMonth,
  removeOrphans,
  type SliceIndex,
  writeIndex,
} from './slice-index.ts'
import { touchedInstants } from './touched-instants.ts'
import { writeSlices } from './write-slices.ts'

export interface PublishRequest {
  readonly store: Store
  readonly site: string
  readonly folder: string
  readonly recipe: Recipe
  readonly revision: number
  readonly previous: SliceIndex
  readonly onMonth: (month: string, at: number, of: number) => void
}

/**
 * Publishes the months that readings have touched since `previous`, and those whose recipe has changed: a
 * calibration that begins in August leaves July as it is. The new index replaces the old in one step at the end: readers see all of it or none.
 */
export async function publishMonths(
  request: PublishRequest,
): Promise<{ index: SliceIndex; report: PublishReport }> {
  const { store, site, folder, recipe, revision, previous } = request
  const lookBackMs = recipe.lookBackMinutes * 60_000
  const lookAheadMs = recipe.lookAheadMinutes * 60_000
  const whole = await touchedInstants(store, site, 0, recipe.clocks)
  const touched = await touchedInstants(store, site, previous.revision, recipe.clocks)
  const hashOf = (month: Month) => recipeOfMonth(recipe, month)
  const reached = whole ? monthsBetween(whole.fromEpochMs, whole.untilEpochMs + lookBackMs) : []
  // A month that readings stood in under other records has to be taken back where they stand in it no more.
  const names = new Set(reached.map(({ name }) => name))
  const left = Object.keys(previous.months).flatMap((name) => (names.has(name) ? [] : monthOf(name)))
  const months = [...reached, ...left].filter(
    (month) =>
      (touched !== null &&
        month.fromEpochMs <= touched.untilEpochMs + lookBackMs &&
        touched.fromEpochMs - lookAheadMs < month.untilEpochMs) ||
      previous.months[month.name]?.recipe !== hashOf(month),
  )
  const published: Record<string, PublishedMonth> = { ...previous.months }
  const report = { months: months.length, files: 0, bytes: 0, rawRows: 0 }

  const connection = await store.connect()
  try {
    await writeChecks(connection, recipe.checked)
    for (const [at, month] of months.entries()) {
      request.onMonth(month.name, at + 1, months.length)
      await store.exposeReadings(connection, 'window_reading', {
        site,
        fromEpochMs: month.fromEpochMs - lookBackMs,
        untilEpochMs: month.untilEpochMs + lookAheadMs,
        clocks: recipe.clocks,
      })
      await reduceWindow(
        connection,
        'window_reading',
        recipe.links,
        month.fromEpochMs,
        month.untilEpochMs,
        recipe.heldSeries,
        recipe.reaches,
      )
      await connection.run(
        'create or replace temp view checked_value as select * from reduced union all select * from beyond',
      )
      await flagHeld(connection, 'checked_value', recipe, month.fromEpochMs, month.untilEpochMs)
      await flagWindow(connection, 'checked_value', recipe.checked, month.fromEpochMs, month.untilEpochMs)
      await addDerivedSeries(connection, recipe)
      await flagDerivedSeries(connection, recipe)
      if (await isEmpty(connection)) {
        published[month.name] = { recipe: hashOf(month), slices: [], latest: [] }
        continue
      }
      const slices = await writeSlices(connection, folder, `/slices/${site}`, month)
      published[month.name] = { recipe: hashOf(month), slices, latest: await latestValues(connection) }
      report.files += slices.length
      report.bytes += slices.reduce((sum, slice) => sum + slice.bytes, 0)
      report.rawRows += slices.find((slice) => slice.resolution === 'raw')?.rows ?? 0
    }
  } finally {
    connection.closeSync()
  }
  const calibrations = [...recipe.calibrations.values()].flatMap((ofSensor) =>
    ofSensor.map(({ sensor, version, validFromEpochMs }) => ({ sensor, version, validFromEpochMs })),
  )
  const index: SliceIndex = { form: 4, revision, months: published, calibrations }
  await writeIndex(folder, index)
  await removeOrphans(folder, new Set([...fileNames(previous), ...fileNames(index)]))
  return { index, report }
}

const isEmpty = async (connection: DuckDBConnection): Promise<boolean> =>
  (await connection.runAndReadAll('select 1 from reduced limit 1')).currentRowCount === 0

async function latestValues(connection: DuckDBConnection): Promise<Latest[]> {
  const reader = await connection.runAndReadAll(`
    with latest as (
      select series, max("at") as "at", arg_max(epoch_ms("at") + received_after_s::bigint * 1000, "at")::double as received_at_ms,
        arg_max(round(value, decimals), "at") as value, arg_max(quality, "at")::integer as quality
      from reduced where value is not null group by series
    )
    select series, epoch_ms("at")::double, received_at_ms, value, quality, coalesce(flags, 0)::integer
    from latest left join flagged using (series, "at") order by series`)
  return reader.getRows().map((row) => ({
    series: Number(row[0]),
    atEpochMs: Number(row[1]),
    receivedAtEpochMs: Number(row[2]),
    value: Number(row[3]),
    quality: Number(row[4]),
    flags: Number(row[5]),
  }))
}

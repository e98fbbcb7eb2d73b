import type { DuckDBConnection } from '@duckdb/node-api'
import type { CalibrationPreview, PreviewStretch } from '#contract/calibration-preview.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import { barometersOf, everyBarometer } from '#domain/reduction/barometer-in-force.ts'
import type { NextCalibration } from '#domain/reduction/draft-calibration.ts'
import { outputsFrom } from '#domain/reduction/rules/outputs-from.ts'
import { zeroReadingsLeft } from '#domain/reduction/zero-readings-left.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { Store } from '../store/store.ts'
import { levelReachedSql } from './level-reached.ts'
import { readRecipe } from './recipe.ts'
import { micros, reduceWindow } from './reduce-window.ts'

export interface PreviewRequest {
  readonly store: Store
  readonly site: string
  readonly model: SiteModel
  readonly next: NextCalibration
  /** Aborted: the query is interrupted and the preview rejects. */
  readonly signal: AbortSignal
}

/** Readings that lie within this are shown by hours, others by days: more than a plot has pixels for is of no use. */
const hourlyWithinMs = 21 * 86_400_000

/**
 * The series of a draft's sensor under the calibrations as they are and with the draft, from every raw reading that
 * the store has of it. Both are reduced by the same queries that publish slices.
 */
export async function previewCalibration(request: PreviewRequest): Promise<CalibrationPreview> {
  const { store, site, model, next, signal } = request
  const { sensor } = next.row
  const withDraft: SiteModel = {
    ...model,
    calibrations: [...model.calibrations, next.row],
    calibrationSteps: [...model.calibrationSteps, ...next.stepRows],
  }
  const connection = await store.connect()
  const interrupt = () => connection.interrupt()
  signal.addEventListener('abort', interrupt)
  try {
    for (const [name, from] of [
      ['old_value', model],
      ['new_value', withDraft],
    ] as const) {
      signal.throwIfAborted()
      await reduceOne(connection, name, { ...request, model: from })
    }
    const summary = await summarize(connection)
    return {
      sensor,
      unit: model.sensors.find(({ id }) => id === sensor)?.unit ?? '',
      ...summary,
      ...(await stretchesOf(connection)),
      levels: await levelsReached(
        connection,
        valueLevels(model.triggerLevels, model.stages).filter(({ series }) => series === sensor),
      ),
      alsoChanges: await dependents(store, site, model, sensor),
      zeroReadingsLeft: zeroReadingsLeft(model, next.row),
    }
  } finally {
    signal.removeEventListener('abort', interrupt)
    connection.closeSync()
  }
}

/** Values of the draft's sensor as a temporary table of "at" and value. */
async function reduceOne(
  connection: DuckDBConnection,
  name: string,
  { store, site, model, next }: PreviewRequest,
): Promise<void> {
  const recipe = await readRecipe(store, site, model)
  const series = recipe.numberOf.get(next.row.sensor)
  const sensor = model.sensors.find(({ id }) => id === next.row.sensor)
  const companions = sensor ? everyBarometer(barometersOf(model.sensorBarometers)(sensor)) : []
  const wanted = new Set(
    [sensor?.id, sensor?.temperatureSensor, ...companions].map((id) =>
      id ? recipe.numberOf.get(id) : undefined,
    ),
  )
  const links = recipe.links.filter((link) => wanted.has(link.series))
  await store.exposeReadings(connection, 'preview_reading', { site, clocks: recipe.clocks })
  await reduceWindow(connection, 'preview_reading', links, Date.UTC(1900, 0), Date.UTC(2300, 0))
  await connection.run(`create or replace temp table ${name} as
    select "at", any_value(value) as value, any_value(decimals) as decimals from reduced where series = ${series ?? -1} group by "at"`)
}

const joined = `(select coalesce(o."at", n."at") as "at", round(o.value, o.decimals) as old, round(n.value, n.decimals) as new
  from old_value o full join new_value n on n."at" = o."at")`

async function summarize(connection: DuckDBConnection) {
  const reader = await connection.runAndReadAll(`
    select count(*)::double, count(*) filter (where old is distinct from new)::double,
      count(*) filter (where new is null and old is not null)::double,
      count(*) filter (where old is null and new is not null)::double,
      arg_max(epoch_ms("at")::double, abs(new - old)), arg_max(old, abs(new - old)), arg_max(new, abs(new - old)), avg(new - old)
    from ${joined}`)
  const [readings, changed, lost, gained, atEpochMs, old, fresh, meanChange] = (reader.getRows()[0] ??
    []) as (number | null)[]
  return {
    readings: readings ?? 0,
    changed: changed ?? 0,
    lost: lost ?? 0,
    gained: gained ?? 0,
    greatestChange: atEpochMs == null || old == null || fresh == null ? null : { atEpochMs, old, new: fresh },
    meanChange: meanChange ?? null,
  }
}

async function stretchesOf(
  connection: DuckDBConnection,
): Promise<Pick<CalibrationPreview, 'resolution' | 'stretches'>> {
  const span = await connection.runAndReadAll(
    `select (max(epoch_ms("at")) - min(epoch_ms("at")))::double from ${joined}`,
  )
  const spanMs = (span.getRows()[0]?.[0] as number | null) ?? 0
  const resolution = spanMs < hourlyWithinMs ? 'hour' : 'day'
  const reader = await connection.runAndReadAll(`
    select epoch_ms(date_trunc('${resolution}', "at"))::double as begins,
      min(old), avg(old), max(old), min(new), avg(new), max(new)
    from ${joined} group by begins order by begins`)
  const stretches = (reader.getRows() as (number | null)[][]).map(
    ([begins, oldLow, oldMean, oldHigh, newLow, newMean, newHigh]): PreviewStretch => ({
      fromEpochMs: begins ?? Number.NaN,
      old: { low: oldLow ?? null, mean: oldMean ?? null, high: oldHigh ?? null },
      new: { low: newLow ?? null, mean: newMean ?? null, high: newHigh ?? null },
    }),
  )
  return { resolution, stretches }
}

async function levelsReached(connection: DuckDBConnection, levels: readonly TriggerLevel[]) {
  const answers = []
  for (const level of levels) {
    const until = level.validUntil === null ? '' : ` and "at" < ${micros(level.validUntil)}`
    const reader = await connection.runAndReadAll(`
      select count(*) filter (where ${levelReachedSql(level, 'old')})::double, count(*) filter (where ${levelReachedSql(level, 'new')})::double
      from ${joined} where "at" >= ${micros(level.validFrom)}${until}`)
    const [reachedOld, reachedNew] = (reader.getRows()[0] ?? []) as number[]
    answers.push({
      level: level.level,
      direction: level.direction,
      value: level.value,
      reachedOld: reachedOld ?? 0,
      reachedNew: reachedNew ?? 0,
    })
  }
  return answers
}

/** Series that the sensor corrects, and those that its instrument makes from it. */
async function dependents(
  store: Store,
  site: string,
  model: SiteModel,
  sensor: string,
): Promise<readonly string[]> {
  const { bundles } = await readRecipe(store, site, model)
  const barometers = barometersOf(model.sensorBarometers)
  const corrected = model.sensors
    .filter((one) => one.temperatureSensor === sensor || everyBarometer(barometers(one)).includes(sensor))
    .map(({ id }) => id)
  const changed = new Set([sensor, ...corrected])
  const made = bundles.flatMap((bundle) => outputsFrom(bundle, changed).map(({ id }) => id))
  return [...corrected, ...made]
}

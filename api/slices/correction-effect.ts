import type { DuckDBConnection } from '@duckdb/node-api'
import type { ProposedCorrection } from '#domain/corrections/correction.ts'
import type {
  CorrectionEffect,
  CorrectionEvidence,
  LevelEffect,
} from '#domain/corrections/correction-proposal.ts'
import { movedStretch } from '#domain/corrections/resolve-clock.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import { barometersOf, everyBarometer } from '#domain/reduction/barometer-in-force.ts'
import { outputsFrom } from '#domain/reduction/rules/outputs-from.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import type { Store } from '../store/store.ts'
import { levelReachedSql } from './level-reached.ts'
import { findMoved, movedOf } from './moved-readings.ts'
import { type Recipe, readRecipe } from './recipe.ts'
import { lookBackMinutes, micros, reduceWindow } from './reduce-window.ts'

const endOfTime = Date.UTC(2300, 0)

/**
 * What corrections do to the series that they are of, in their time: every raw reading reduced under the records as they are
 * and as they would be, by the queries that publish slices.
 */
export async function correctionEvidence(given: {
  readonly store: Store
  readonly site: string
  readonly before: SiteModel
  readonly after: SiteModel
  readonly changes: readonly ProposedCorrection[]
  readonly signal: AbortSignal
}): Promise<Pick<CorrectionEvidence, 'effects' | 'alsoChanges'>> {
  const { store, site, before, after, changes, signal } = given
  const stretches = changes.map((one) => (one.kind === 'clock' ? movedStretch(before, one) : one))
  const fromEpochMs = Math.min(...stretches.map((one) => one.fromEpochMs))
  const untilEpochMs = Math.min(endOfTime, Math.max(...stretches.map((one) => one.untilEpochMs ?? endOfTime)))
  const named = new Set(changes.flatMap(({ series, moves = [] }) => [series, ...moves]))
  const sensors = before.sensors.filter(({ id }) => named.has(id))
  const connection = await store.connect()
  const interrupt = () => connection.interrupt()
  signal.addEventListener('abort', interrupt)
  try {
    const barometers = [before, after].map((model) => barometersOf(model.sensorBarometers))
    const wanted = sensors.flatMap((one) => [
      one.id,
      one.temperatureSensor,
      ...barometers.flatMap((of) => everyBarometer(of(one))),
    ])
    const recipes: Recipe[] = []
    for (const [name, model] of [
      ['before_value', before],
      ['after_value', after],
    ] as const) {
      signal.throwIfAborted()
      const recipe = await readRecipe(store, site, model)
      const numbers = new Set(wanted.map((id) => recipe.numberOf.get(id ?? '')))
      const links = recipe.links.filter((link) => numbers.has(link.series))
      await store.exposeReadings(connection, readingsOf[name], {
        site,
        fromEpochMs: fromEpochMs - lookBackMinutes * 60_000,
        untilEpochMs,
        clocks: recipe.clocks,
      })
      await reduceWindow(connection, readingsOf[name], links, fromEpochMs, untilEpochMs)
      await connection.run(`create or replace temp table ${name} as
        select series, "at", any_value(value) as value, any_value(decimals) as decimals from reduced group by series, "at"`)
      recipes.push(recipe)
    }
    const recipe = recipes[0] as Recipe
    await findMoved(connection, recipe, changes, readingsOf)
    const effects: CorrectionEffect[] = []
    for (const { id, unit, decimals, lateAfterMinutes } of sensors) {
      signal.throwIfAborted()
      const number = recipe.numberOf.get(id) ?? -1
      const levels = valueLevels(before.triggerLevels, before.stages).filter(({ series }) => series === id)
      effects.push({
        series: id,
        unit,
        decimals,
        ...(await summaryOf(connection, number)),
        ...(await movedOf(connection, number, lateAfterMinutes)),
        levels: await levelsOf(connection, number, levels),
      })
    }
    return { effects, alsoChanges: dependents(before, recipe, new Set(sensors.map(({ id }) => id))) }
  } finally {
    signal.removeEventListener('abort', interrupt)
    connection.closeSync()
  }
}

const readingsOf = { before_value: 'before_reading', after_value: 'after_reading' } as const

/** Each reading as recorded beside itself as corrected, though it stand at another instant then. */
const joined = (series: number) => `(
  select coalesce(a."at", b.stands) as "at", round(b.value, b.decimals) as before, round(a.value, a.decimals) as after
  from (select v.value, v.decimals, coalesce(m.after_at, v."at") as stands from before_value v
    left join moved_reading m on m.series = v.series and m.before_at = v."at" where v.series = ${series}) b
  full join (from after_value where series = ${series}) a on a."at" = b.stands)`

async function summaryOf(connection: DuckDBConnection, series: number) {
  const reader = await connection.runAndReadAll(`
    select count(*)::double, count(*) filter (where before is distinct from after)::double,
      count(*) filter (where after is null and before is not null)::double,
      count(*) filter (where before is null and after is not null)::double,
      avg(after - before) filter (where before is distinct from after),
      arg_max(epoch_ms("at")::double, abs(after - before)), arg_max(before, abs(after - before)),
      arg_max(after, abs(after - before))
    from ${joined(series)}`)
  const [readings, changed, lost, gained, meanChange, atEpochMs, before, after] = (reader.getRows()[0] ??
    []) as (number | null)[]
  return {
    readings: readings ?? 0,
    changed: changed ?? 0,
    lost: lost ?? 0,
    gained: gained ?? 0,
    meanChange: meanChange ?? null,
    greatestChange:
      atEpochMs == null || before == null || after == null ? null : { atEpochMs, before, after },
  }
}

async function levelsOf(
  connection: DuckDBConnection,
  series: number,
  levels: readonly TriggerLevel[],
): Promise<readonly LevelEffect[]> {
  const found: LevelEffect[] = []
  for (const level of levels) {
    const until = level.validUntil === null ? '' : ` and "at" < ${micros(level.validUntil)}`
    const reader = await connection.runAndReadAll(`
      select count(*) filter (where ${levelReachedSql(level, 'before')})::double,
        count(*) filter (where ${levelReachedSql(level, 'after')})::double
      from ${joined(series)} where "at" >= ${micros(level.validFrom)}${until}`)
    const [reachedBefore, reachedAfter] = (reader.getRows()[0] ?? []) as number[]
    found.push({
      id: level.id,
      level: level.level,
      direction: level.direction,
      value: level.value,
      reachedBefore: reachedBefore ?? 0,
      reachedAfter: reachedAfter ?? 0,
    })
  }
  return found
}

/** Series that sensors correct, and those that instruments make from any of these. */
function dependents(model: SiteModel, { bundles }: Recipe, sensors: ReadonlySet<string>): readonly string[] {
  const barometers = barometersOf(model.sensorBarometers)
  const corrected = model.sensors
    .filter(
      (one) =>
        !sensors.has(one.id) &&
        [one.temperatureSensor ?? '', ...everyBarometer(barometers(one))].some((id) => sensors.has(id)),
    )
    .map(({ id }) => id)
  const changed = new Set([...sensors, ...corrected])
  const made: string[] = []
  for (const bundle of bundles)
    for (const { id } of outputsFrom(bundle, changed)) {
      changed.add(id)
      made.push(id)
    }
  return [...new Set([...corrected, ...made])]
}

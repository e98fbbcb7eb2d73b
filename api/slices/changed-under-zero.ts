import { clockWords } from '#domain/corrections/clock-words.ts'
import { datedOf } from '#domain/corrections/resolve-corrections.ts'
import { calibrationPeriods } from '#domain/reduction/calibration-in-force.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { showInstant } from '#domain/site/site-readings.ts'
import type { TableName } from '#domain/site/tables.ts'
import { recordKey } from '../store/model-records.ts'
import type { Store } from '../store/store.ts'
import { readRecipe } from './recipe.ts'
import { createSeriesNeeds } from './series-needs.ts'

/** When the readings of a zero were taken, and of which series; until is exclusive. */
export interface ZeroStretch {
  readonly series: string
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

/**
 * What was recorded since an instant that the values in a stretch rest on besides the chain of the series itself: wiring, and
 * the calibrations of what it is corrected by. Each in words, with who recorded it and why; empty: nothing. `after`: the
 * records with the correction made; what is not recorded yet is not told.
 */
export async function changedUnderZero(given: {
  readonly store: Store
  readonly site: string
  readonly after: SiteModel
  readonly zero: ZeroStretch
  readonly sinceEpochMs: number
}): Promise<readonly string[]> {
  const { store, site, after, zero, sinceEpochMs } = given
  const told: string[] = []
  for (const { words, rows } of await recordsUnder(store, site, after, zero)) {
    const last = await Promise.all(
      rows.map(async ([table, row]) => (await store.listVersions(site, table, recordKey(table, row))).at(-1)),
    )
    const since = last.find((version) => version && version.recordedAtEpochMs >= sinceEpochMs)
    if (since) told.push(`${words} (${since.author}: ${since.reason})`)
  }
  return told
}

interface UnderRecord {
  readonly words: string
  readonly rows: readonly (readonly [TableName, Readonly<Record<string, unknown>>])[]
}

async function recordsUnder(
  store: Store,
  site: string,
  model: SiteModel,
  { series, fromEpochMs, untilEpochMs }: ZeroStretch,
): Promise<readonly UnderRecord[]> {
  const recipe = await readRecipe(store, site, model)
  const needed = createSeriesNeeds(recipe).neededBy([recipe.numberOf.get(series) ?? -1])
  const since = fromEpochMs - needed.lookBackMinutes * 60_000
  const isIn = (from: number, until: number | null) =>
    from < untilEpochMs && since < (until ?? Number.POSITIVE_INFINITY)
  const numbers = new Set(needed.links.map((link) => link.series))
  const sensors = model.sensors.filter(({ id }) => numbers.has(recipe.numberOf.get(id) ?? -1))
  const ofSensors = sensors.flatMap((sensor): readonly UnderRecord[] => [
    { words: `${sensor.id} is another on record`, rows: [['sensors', { ...sensor }]] },
    ...model.wiring
      .filter((row) => row.sensor === sensor.id && isIn(row.fromAt, row.untilAt))
      .map(
        (row): UnderRecord => ({
          words: `${sensor.id} reads channel ${row.channel} of ${row.logger} from ${showInstant(row.fromAt)} ${row.untilAt === null ? 'on' : `until ${showInstant(row.untilAt)}`}`,
          rows: [['wiring', { ...row }]],
        }),
      ),
    ...(sensor.id === series ? [] : calibrationsOf(model, sensor.id))
      .filter((period) => isIn(period.fromEpochMs, period.untilEpochMs))
      .map(
        ({ calibration: { row }, fromEpochMs: begins }): UnderRecord => ({
          words: `${row.id} of ${sensor.id} holds from ${showInstant(begins)} on`,
          rows: [
            ['calibrations', { ...row }],
            ...model.calibrationSteps
              .filter(({ calibration }) => calibration === row.id)
              .map((step) => ['calibrationSteps', { ...step }] as const),
          ],
        }),
      ),
  ])
  return [...ofSensors, ...clocksUnder(model, new Set(sensors.map(({ id }) => id)))]
}

/** Records of the clocks of whatever loggers ever read some sensors, each once. */
function clocksUnder(
  { wiring, loggerClocks }: SiteModel,
  sensors: ReadonlySet<string>,
): readonly UnderRecord[] {
  const loggers = new Set(wiring.filter(({ sensor }) => sensors.has(sensor)).map(({ logger }) => logger))
  return loggerClocks
    .filter(({ logger }) => loggers.has(logger))
    .map((row) => ({
      words: `of ${row.logger}, ${clockWords(row)} from the stamp ${showInstant(row.validFrom)} on`,
      rows: [['loggerClocks', { ...row }]],
    }))
}

const calibrationsOf = (model: SiteModel, sensor: string) => calibrationPeriods(datedOf(model, sensor))

import { clockWords } from '#domain/corrections/clock-words.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { type LoggerClock, type SensorBarometer, siteTables } from '#domain/site/tables.ts'
import { isEntered, rowText } from './entered-rows.ts'
import { recordKey } from './store/model-records.ts'
import type { Store } from './store/store.ts'

/**
 * The model of a folder with the barometers of sensors and the clocks of loggers that were entered in the page since: a
 * folder that does not know them must not take them back. Refused where the folder says something else under the same
 * version.
 */
export async function keepDatedVersions(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const kept = await store.getSite(folder.facts.id)
  if (!kept) return accept(folder)
  const sensors = new Set(folder.sensors.map(({ id }) => id))
  const loggers = new Set(folder.loggers.map(({ id }) => id))
  const barometers = await entered(store, folder, kept, {
    table: 'sensorBarometers',
    isThere: (row: SensorBarometer) => sensors.has(row.sensor),
    subject: ({ sensor }) => `the barometer of ${sensor}`,
    words: ({ barometer }) => barometer,
  })
  const clocks = await entered(store, folder, kept, {
    table: 'loggerClocks',
    isThere: (row: LoggerClock) => loggers.has(row.logger),
    subject: ({ logger }) => `the clock of ${logger}`,
    words: clockWords,
  })
  const clashes = [...barometers.clashes, ...clocks.clashes]
  if (clashes.length > 0) return reject(...clashes)
  if (barometers.rows.length + clocks.rows.length === 0) return accept(folder)
  return accept({
    ...folder,
    sensorBarometers: [...folder.sensorBarometers, ...barometers.rows],
    loggerClocks: [...folder.loggerClocks, ...clocks.rows],
  })
}

type DatedTables = { readonly sensorBarometers: SensorBarometer; readonly loggerClocks: LoggerClock }

/** Rows of a table that were entered in the page and that the folder does not have, and where both say otherwise. */
async function entered<T extends keyof DatedTables>(
  store: Store,
  folder: SiteModel,
  kept: SiteModel,
  {
    table,
    isThere,
    subject,
    words,
  }: {
    readonly table: T
    readonly isThere: (row: DatedTables[T]) => boolean
    readonly subject: (row: DatedTables[T]) => string
    readonly words: (row: DatedTables[T]) => string
  },
): Promise<{ readonly rows: readonly DatedTables[T][]; readonly clashes: readonly Issue[] }> {
  const rowsOf = (model: SiteModel) => model[table] as readonly DatedTables[T][]
  const known = new Map(rowsOf(folder).map((row) => [recordKey(table, row), row]))
  const rows: DatedTables[T][] = []
  const clashes: Issue[] = []
  for (const row of rowsOf(kept)) {
    const key = recordKey(table, row)
    if (!isThere(row) || !(await isEntered(store, folder.facts.id, table, key))) continue
    const other = known.get(key)
    if (!other) rows.push(row)
    else if (rowText(other) !== rowText(row))
      clashes.push({
        code: 'version-entered-twice',
        file: siteTables[table].file,
        column: 'version',
        value: String(other.version),
        message: `Version ${row.version} of ${subject(row)} was entered in the page by ${row.author} and says ${words(row)}; the folder says ${words(other)}, or from another instant on. Take the page's row into the folder and give the other the next number.`,
      })
  }
  return { rows, clashes }
}

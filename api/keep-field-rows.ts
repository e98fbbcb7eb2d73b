import type { SiteModel } from '#domain/site/site.ts'
import type { TableName } from '#domain/site/tables.ts'
import { isEntered } from './entered-rows.ts'
import { recordKey } from './store/model-records.ts'
import type { Store } from './store/store.ts'

/** Tables that rows are added to along the works and in the page; calibrations are kept by `keepCalibrations`, which comes after. */
const fieldTables = [
  'locations',
  'instruments',
  'points',
  'sensors',
  'wiring',
  'zeroReadings',
  'coverageTests',
  'diary',
  'approvals',
  'approvalWithdrawals',
] as const satisfies readonly TableName[]

/**
 * The model of a folder with the rows that were added along the works since: a folder that does not know them must not
 * take them back. Where the folder has a row of that name, the folder's holds.
 */
export async function keepFieldRows(store: Store, folder: SiteModel): Promise<SiteModel> {
  const site = folder.facts.id
  const kept = await store.getSite(site)
  if (kept === null) return folder
  const tables: [string, readonly unknown[]][] = []
  for (const table of fieldTables) {
    const rows = folder[table] as readonly Record<string, unknown>[]
    const known = new Set(rows.map((row) => recordKey(table, row)))
    const added: unknown[] = []
    for (const row of kept[table] as readonly Record<string, unknown>[]) {
      const key = recordKey(table, row)
      if (!known.has(key) && (await isEntered(store, site, table, key))) added.push(row)
    }
    if (added.length > 0) tables.push([table, [...rows, ...added]])
  }
  return tables.length === 0 ? folder : { ...folder, ...Object.fromEntries(tables) }
}

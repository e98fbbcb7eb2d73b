import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables, type Wiring } from '#domain/site/tables.ts'
import { lastOfFolder } from './entered-rows.ts'
import { recordKey } from './store/model-records.ts'
import type { Store } from './store/store.ts'

/**
 * The model of a folder with the wiring that two people corrected in the page since: a folder that does not know of it must
 * wire nothing back. Refused where the folder itself now says something else of such a row. Rows that were only added are
 * kept by `keepFieldRows`, which comes before.
 */
export async function keepWiring(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const site = folder.facts.id
  const kept = await store.getSite(site)
  if (kept === null) return accept(folder)
  const keptRows = new Map(kept.wiring.map((row) => [recordKey('wiring', row), row]))
  const clashes: Issue[] = []
  let changed = false
  const wiring: Wiring[] = []
  for (const row of folder.wiring) {
    const key = recordKey('wiring', row)
    const other = keptRows.get(key)
    if (other && isSame(other, row)) {
      wiring.push(row)
      continue
    }
    const versions = await store.listVersions(site, 'wiring', key)
    const last = versions.at(-1)
    if (!last || last.author === folderAuthor) wiring.push(row)
    else if (isSame(lastOfFolder(versions), row)) {
      changed = true
      if (other) wiring.push(other)
    } else
      clashes.push({
        code: 'wiring-corrected-otherwise',
        file: siteTables.wiring.file,
        column: 'fromAt',
        value: `${row.logger} ${row.channel}`,
        message: `The wiring of channel ${row.channel} of ${row.logger} was corrected in the page by ${last.author}, and the folder says something else of it. Take the wiring as it was approved into the folder; correct what else is to change in the page.`,
      })
  }
  if (clashes.length > 0) return reject(...clashes)
  return accept(changed ? { ...folder, wiring } : folder)
}

/** The store keeps no empty cells. */
const isSame = (one: Partial<Wiring> | null, other: Wiring): boolean =>
  one !== null &&
  (Object.keys(siteTables.wiring.columns) as (keyof Wiring)[]).every(
    (column) => (one[column] ?? null) === (other[column] ?? null),
  )

import { folderAuthor } from '#domain/site/folder-author.ts'
import type { TableName } from '#domain/site/tables.ts'
import { canonicalJson } from './store/model-records.ts'
import type { RecordVersion, Store } from './store/store.ts'

/** Whether a record was first written in the page or along the works, not by a folder. */
export async function isEntered(store: Store, site: string, table: TableName, key: string): Promise<boolean> {
  const [first] = await store.listVersions(site, table, key)
  return first !== undefined && first.author !== folderAuthor
}

/** What a folder last said of a record, by its versions, oldest first; null: nothing, or that it is gone. */
export const lastOfFolder = <T extends object>(versions: readonly RecordVersion[]): T | null =>
  (versions.findLast(({ author }) => author === folderAuthor)?.body ?? null) as T | null

/** What a row says, as text to compare: an empty cell is as none, which is how the store keeps it. */
export const rowText = (row: object, without?: string): string =>
  canonicalJson(
    Object.fromEntries(Object.entries(row).filter(([name, cell]) => name !== without && cell !== null)),
  )

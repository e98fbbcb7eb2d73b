import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables } from '#domain/site/tables.ts'
import { suppressibleIds } from '#domain/suppression/draft-suppression.ts'
import { isEntered } from './entered-rows.ts'
import { canonicalJson, recordKinds, toRecords } from './store/model-records.ts'
import type { Store } from './store/store.ts'

const rosterTables = ['contacts', 'dutyShifts', 'holidays', 'escalations'] as const
type RosterTable = (typeof rosterTables)[number]

/**
 * The model of a folder with the roster and suppressions that were written in the page since. A table that the page
 * changed stays as the page left it while the folder says what it said before; where both changed it, the folder is
 * refused, as nobody but a person knows who is to be told.
 */
export async function keepRoster(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const kept = await store.getSite(folder.facts.id)
  if (!kept) return accept(folder)
  let model = folder
  const clashes: Issue[] = []
  for (const table of rosterTables) {
    const [said, stands] = [textOf(folder, table), textOf(kept, table)]
    if (said === stands) continue
    const before = await lastOfFolder(store, folder.facts.id, table)
    if (before === stands) continue
    if (said === before) model = { ...model, [table]: kept[table] }
    else
      clashes.push({
        code: 'roster-changed-twice',
        file: siteTables[table].file,
        message: `${siteTables[table].file} was changed in the page, and the folder says something else than it did before. Take the page's table into the folder (it is shown as text under Who is told), with what is to be changed.`,
      })
  }
  if (clashes.length > 0) return reject(...clashes)
  return accept(await keepSuppressions(store, kept, model))
}

/** Those entered in the page, except where the folder no longer has what they are about. */
async function keepSuppressions(store: Store, kept: SiteModel, model: SiteModel): Promise<SiteModel> {
  const site = model.facts.id
  const known = suppressibleIds(model)
  const suppressions = [...model.suppressions]
  for (const row of kept.suppressions)
    if (
      !suppressions.some(({ id }) => id === row.id) &&
      known[row.covers].has(row.name) &&
      (await isEntered(store, site, 'suppressions', row.id))
    )
      suppressions.push(row)
  const suppressionEnds = [...model.suppressionEnds]
  for (const row of kept.suppressionEnds)
    if (
      !suppressionEnds.some(({ suppression }) => suppression === row.suppression) &&
      suppressions.some(({ id }) => id === row.suppression) &&
      (await isEntered(store, site, 'suppressionEnds', row.suppression))
    )
      suppressionEnds.push(row)
  const same =
    suppressions.length === model.suppressions.length &&
    suppressionEnds.length === model.suppressionEnds.length
  return same ? model : { ...model, suppressions, suppressionEnds }
}

const textOf = (model: SiteModel, table: RosterTable): string =>
  JSON.stringify(
    toRecords(model)
      .filter(({ kind }) => kind === table)
      .map(({ body }) => body),
  )

/** The table as a folder last said it, by the versions that it made. */
async function lastOfFolder(store: Store, site: string, table: RosterTable): Promise<string> {
  const ofFolder = async (kind: string, key: string) =>
    (await store.listVersions(site, kind, key)).filter(({ author }) => author === folderAuthor).at(-1)?.body
  const keys = ((await ofFolder(recordKinds.order, table)) ?? []) as readonly string[]
  const rows = await Promise.all(keys.map((key) => ofFolder(table, key)))
  return JSON.stringify(rows.map((row) => canonicalJson(row ?? null)))
}

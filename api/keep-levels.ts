import { isSameLevel } from '#domain/levels/level-change.ts'
import { accept, type Issue, type Outcome, reject } from '#domain/outcome.ts'
import { folderAuthor } from '#domain/site/folder-author.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteTables } from '#domain/site/tables.ts'
import { lastOfFolder } from './entered-rows.ts'
import type { Store } from './store/store.ts'

/**
 * The model of a folder with the trigger levels that two people changed in the page since: a folder that does not know
 * of it must bring back no level that was ended, and take away none that was added. Refused where the folder itself
 * now says something else of such a level.
 */
export async function keepLevels(store: Store, folder: SiteModel): Promise<Outcome<SiteModel>> {
  const site = folder.facts.id
  const kept = await store.getSite(site)
  const levels = new Map(folder.triggerLevels.map((level) => [level.id, level]))
  const clashes: Issue[] = []
  let changed = false
  for (const level of kept?.triggerLevels ?? []) {
    const inFolder = levels.get(level.id)
    if (inFolder && isSameLevel(inFolder, level)) continue
    const versions = await store.listVersions(site, 'triggerLevels', level.id)
    if (versions.at(-1)?.author === folderAuthor) continue
    if (!inFolder || isSameLevel(inFolder, lastOfFolder(versions))) {
      levels.set(level.id, level)
      changed = true
    } else
      clashes.push({
        code: 'level-approved-otherwise',
        file: siteTables.triggerLevels.file,
        column: 'id',
        value: level.id,
        message: `${level.id} was changed in the page, proposed by ${level.author} and approved by a second person, and the folder says something else of it. Take the level as it was approved into the folder; propose what else is to change in the page.`,
      })
  }
  const keptIds = new Set(kept?.triggerLevels.map(({ id }) => id))
  for (const { id } of folder.triggerLevels) {
    if (kept === null || keptIds.has(id)) continue
    const last = (await store.listVersions(site, 'triggerLevels', id)).at(-1)
    if (!last || last.body !== null || last.author === folderAuthor) continue
    levels.delete(id)
    changed = true
  }
  if (clashes.length > 0) return reject(...clashes)
  return accept(changed ? { ...folder, triggerLevels: [...levels.values()] } : folder)
}

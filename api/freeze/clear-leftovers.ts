import { access, readdir, rm } from 'node:fs/promises'
import { join } from 'node:path'
import type { Store } from '../store/store.ts'

/** Name of a folder in which a set is being made begins so. */
export const unfinished = '.unfinished-'

/** File in the folder of a whole set until the store says that it is there: a kill between the two leaves it. */
export const notListedYet = '.not-listed-yet'

/** Takes away what a kill left of sets that were being made at a site. */
export async function clearUnfinished(folder: string, site: string): Promise<void> {
  for (const name of await namesIn(join(folder, site)))
    if (name.startsWith(unfinished)) await rm(join(folder, site, name), { recursive: true, force: true })
}

/**
 * At a start, before anything is frozen: takes away what kills left, sets among it that are whole but were never given
 * to anybody. A folder that the store does not know for another reason, such as an older data file put back from a
 * backup, may be the only copy of what a meeting saw: it stays, and is told of.
 */
export async function clearLeftovers(
  store: Pick<Store, 'listSites' | 'listFrozenSets'>,
  folder: string,
  report: (line: string) => void,
): Promise<void> {
  for (const { id: site } of await store.listSites()) {
    await clearUnfinished(folder, site)
    const listed = new Set((await store.listFrozenSets(site)).map(({ set }) => set.id))
    for (const name of await namesIn(join(folder, site))) {
      const place = join(folder, site, name)
      const marker = join(place, notListedYet)
      if (listed.has(name)) await rm(marker, { force: true })
      else if (await isThere(marker)) await rm(place, { recursive: true, force: true })
      else
        report(
          `${place} is no frozen data set that the data file knows, and was left as it is. Put it away if nobody needs it.`,
        )
    }
  }
}

const namesIn = (folder: string): Promise<readonly string[]> =>
  readdir(folder).catch((cause: NodeJS.ErrnoException) => {
    if (cause.code === 'ENOENT') return []
    throw cause
  })

const isThere = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  )

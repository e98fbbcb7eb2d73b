import type { Issue } from '../outcome.ts'
import { readSite } from './read-site.ts'
import type { SiteModel } from './site.ts'
import { writeSite } from './write-site.ts'

/**
 * Every fault that a site folder with these records would have: the checks of a folder, for records that come another
 * way. Lines are those of the folder that `writeSite` makes. Empty: there is none.
 */
export function modelFaults(model: SiteModel): readonly Issue[] {
  const read = readSite(writeSite(model))
  return read.ok ? [] : read.issues
}

import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import { askServer, isSignInNeeded } from './ask-server.ts'
import { readFromFrozen, showFrozenSet } from './frozen.ts'
import { reportTrouble } from './notices.ts'
import { openSite, type SiteEntry } from './open-site.ts'

/** Opens a site as a frozen set has it; null: the first site there is. Nothing else of the site is asked before. */
export async function openFrozen(wanted: string | null, set: string): Promise<void> {
  readFromFrozen(set)
  try {
    const site = wanted ?? (await firstSite())
    if (site === null) return
    showFrozenSet(await askServer<FrozenSet>(frozenPath(site, set)))
    await openSite(site)
  } catch (cause) {
    if (!isSignInNeeded(cause)) reportTrouble({ cause, retry: () => void openFrozen(wanted, set) })
  }
}

/** Path of a frozen set, or of one of its documents. */
export const frozenPath = (site: string, set: string, part = ''): string =>
  `/api/sites/${encodeURIComponent(site)}/frozen/${encodeURIComponent(set)}${part}`

/** Name of the first site there is; null: none has been set up, which is told. */
export async function firstSite(): Promise<string | null> {
  const answer = await askServer<readonly SiteEntry[] | { readonly sites: readonly SiteEntry[] }>(
    '/api/sites',
  )
  const site = ('sites' in answer ? answer.sites : answer)[0]?.id ?? null
  if (site === null) reportTrouble({ sentence: 'No site has been set up on this server yet.' })
  return site
}

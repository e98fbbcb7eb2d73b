import { createSignal } from 'solid-js'
import type { Publishing } from '#contract/publishing.ts'
import { askServerWithin, keptAtEpochMs } from './ask-server.ts'
import { refreshSite, sitePath, statesWithinMs } from './open-site.ts'
import { siteDocument, stateDocument } from './site-document.ts'

const [publishing, setPublishing] = createSignal<Publishing | null>(null)

/** Whether what is shown is behind what the server holds, as last heard; null: not asked yet. */
export { publishing }

const [unfetchedOf, setUnfetchedOf] = createSignal<string | null>(null)

/** Whether what was published of the open site could not be fetched, so that records are older than the states. */
export const areRecordsUnfetched = (): boolean =>
  unfetchedOf() !== null && unfetchedOf() === siteDocument()?.facts.id

const askAgainMs = 400
let watched: string | null = null
/** Revision of the site whose records this page holds, as far as was heard. */
const shownRevision = new Map<string, number>()

/**
 * Follows the server while it works out values anew, and fetches what is new when it is done. Asked again for the
 * same site it goes on as it does.
 */
export async function watchPublishing(site: string): Promise<void> {
  if (watched === site) return
  watched = site
  // Records and states were fetched together when the site was opened; kept records may be of any revision.
  if (!shownRevision.has(site) && recordsAreOfServer())
    shownRevision.set(site, stateDocument()?.revision ?? 0)
  try {
    let wasBehind = false
    for (;;) {
      const heard = await askServerWithin<Publishing>(sitePath(site, '/publishing'), statesWithinMs)
      if (watched !== site) return
      setPublishing(heard)
      const waits = heard.behind && heard.failedAtEpochMs === null
      if (!waits) break
      wasBehind = true
      await new Promise((resolve) => setTimeout(resolve, askAgainMs))
    }
    // Another page's change may have been worked out between two questions.
    const revision = publishing()?.publishedRevision ?? 0
    if (wasBehind || revision !== shownRevision.get(site)) {
      await refreshSite(site).catch((cause) => {
        // Not left to the revision that was shown: it may be the one of before.
        shownRevision.delete(site)
        setUnfetchedOf(site)
        throw cause
      })
    }
    setUnfetchedOf(null)
    if (recordsAreOfServer()) shownRevision.set(site, revision)
  } finally {
    if (watched === site) watched = null
  }
}

function recordsAreOfServer(): boolean {
  const records = siteDocument()
  return records !== null && keptAtEpochMs(records) === null
}

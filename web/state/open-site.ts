import { createSignal } from 'solid-js'
import type { SiteDocument } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import { latestOnly } from '../ui/latest-only.ts'
import { askServer, askServerWithin, isSignInNeeded, keptAtEpochMs } from './ask-server.ts'
import { reportAnswer, reportKept, reportNoAnswer } from './connection.ts'
import { partInFrozen } from './frozen.ts'
import { askKeptAgain, reportPart } from './kept-parts.ts'
import { reportTrouble } from './notices.ts'
import { showSite, showStates, siteDocument } from './site-document.ts'

/** One line of `GET /api/sites`. */
export interface SiteEntry {
  readonly id: string
  readonly name: string
}

const [sites, setSites] = createSignal<readonly SiteEntry[]>([])

export { sites }

/** Path of a site's part of the API; of a frozen set while the page reads from one. */
export const sitePath = (site: string, part = ''): string =>
  `/api/sites/${encodeURIComponent(site)}${partInFrozen(part)}`

/** Opens the wanted site, or the first there is. Document and states are asked for together. */
export async function openSite(wanted: string | null): Promise<void> {
  try {
    const listed = askServer<readonly SiteEntry[]>('/api/sites').then(takeList)
    listed.catch(() => {})
    const site = wanted ?? (await listed)[0]?.id
    if (site === undefined) {
      reportTrouble({ sentence: 'No site has been set up on this server yet.' })
      return
    }
    const states = askServer<StateDocument>(sitePath(site, '/state'))
    states.catch(() => {})
    takeRecords(await askServer<SiteDocument>(sitePath(site)))
    showStates(await states)
    reportFrom(await states)
    await listed
  } catch (cause) {
    if (!isSignInNeeded(cause)) reportTrouble({ cause, retry: () => void openSite(wanted) })
  }
}

/** Shorter than the time until states are asked for again, which would end the question unanswered. */
export const statesWithinMs = 15_000
/** Records and lists are large, and a network along the works slow. */
export const largeWithinMs = 120_000

/** Asks for the newest states; what is shown stays when the server cannot be reached, and says so. */
export const refreshStates = latestOnly(async (site: string, signal: AbortSignal) => {
  try {
    const states = await askServerWithin<StateDocument>(sitePath(site, '/state'), statesWithinMs, { signal })
    showStates(states)
    reportFrom(states)
  } catch (cause) {
    if (!signal.aborted) reportNoAnswer(Date.now())
    throw cause
  }
})

/** Asks for records and states again, after a file was taken in. */
export async function refreshSite(site: string): Promise<void> {
  await refreshRecords(site)
  await refreshStates(site)
}

async function refreshRecords(site: string): Promise<void> {
  const records = await askServerWithin<SiteDocument>(sitePath(site), largeWithinMs, { fresh: true })
  // Another site may have been opened meanwhile.
  if (siteDocument()?.facts.id === site) takeRecords(records)
}

function takeRecords(records: SiteDocument): void {
  const site = records.facts.id
  showSite(records)
  reportPart(site, 'records', records, () => refreshRecords(site))
}

/** Fetches what was just saved. It is on the server already, so a failure is told apart from one of saving. */
export function showSaved(site: string): void {
  refreshSite(site).catch((cause) => reportTrouble({ cause, retry: () => showSaved(site) }))
}

function takeList(answer: readonly SiteEntry[] | { readonly sites: readonly SiteEntry[] }) {
  const list = 'sites' in answer ? answer.sites : answer
  setSites(list)
  return list
}

/** Whether the server gave the states or this device had kept them. */
function reportFrom(states: StateDocument): void {
  const keptAt = keptAtEpochMs(states)
  if (keptAt === null) {
    reportAnswer(Date.now())
    // What is still shown as kept beside these states is older than they are.
    void askKeptAgain()
  } else reportKept(keptAt)
}

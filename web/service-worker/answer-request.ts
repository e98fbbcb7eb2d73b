import { cutRange } from './cut-range.ts'
import { documentCache, keptAtHeader, shellCachePrefix, sliceCache } from './kept-names.ts'

export interface Surroundings {
  readonly origin: string
  readonly caches: Pick<CacheStorage, 'open' | 'match' | 'keys'>
  readonly fetch: (request: Request) => Promise<Response>
  readonly now: () => number
  /** After so long a kept document is shown while the network has not answered. */
  readonly patienceMs: number
}

const document = /^\/api\/sites(\/[^/]+(\/(state|slices|network|field-guide|alerts|meetings|minutes))?)?$/

/** What never changes under its address; what was corrected since is asked for each time. */
const frozenDocument = /^\/api\/sites\/[^/]+\/frozen\/[0-9a-f]{16}(\/(site|state|alerts|network|slices))?$/

/**
 * How a request of the page is answered while a device keeps the site; null: it goes to the network as if there
 * were no worker. Files of the page come from what is kept, documents from the network while there is one, and
 * with the hour at which they were kept where there is none. Nothing but GET is ever answered here.
 */
export function answerRequest(request: Request, around: Surroundings): Promise<Response> | null {
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== around.origin) return null
  // Asked of the server anew, by a page that keeps a newer version: what is kept here is of the older one.
  if (request.cache === 'reload') return null
  if (request.mode === 'navigate') return answerPage(request, around)
  if (document.test(pathname)) return answerDocument(request, around)
  // Not every role may read it, and the next one at this device may be somebody else: the server is asked first.
  if (frozenDocument.test(pathname)) return answerFrozen(request, around, pathname.endsWith('/network'))
  if (pathname.startsWith('/slices/') && pathname.endsWith('.duckdb')) return answerSlice(request, around)
  if (pathname.startsWith('/api/')) return null
  return answerFile(request, around)
}

async function answerPage(request: Request, around: Surroundings): Promise<Response> {
  return (await keptFile(`${around.origin}/index.html`, around)) ?? around.fetch(request)
}

async function answerFile(request: Request, around: Surroundings): Promise<Response> {
  return (await keptFile(request.url, around)) ?? around.fetch(request)
}

/** From whichever build keeps it: a page that is open while a newer one is kept still finds its own parts. */
async function keptFile(url: string, { caches }: Surroundings): Promise<Response | undefined> {
  for (const name of await caches.keys()) {
    if (!name.startsWith(shellCachePrefix)) continue
    const kept = await (await caches.open(name)).match(url, { ignoreVary: true })
    if (kept) return kept
  }
  return undefined
}

async function answerDocument(request: Request, around: Surroundings): Promise<Response> {
  const store = await around.caches.open(documentCache)
  const kept = await store.match(request.url, { ignoreVary: true })
  const asked = around.fetch(request).then(async (answer) => {
    if (answer.ok)
      await store.put(request.url, await dated(answer.clone(), around.now())).catch(() => undefined)
    return answer
  })
  if (!kept) return asked
  // The page has the kept one already and wants the server's, however slow.
  if (request.cache === 'no-cache') return asked.catch(() => kept)
  // A later answer of the network is still kept for the next question.
  asked.catch(() => undefined)
  const patience = new Promise<Response>((resolve) => setTimeout(() => resolve(kept), around.patienceMs))
  return Promise.race([asked, patience]).catch(() => kept)
}

/** The kept one is as good as the server's: it bears no hour of keeping. */
async function answerFrozen(request: Request, around: Surroundings, serverFirst: boolean): Promise<Response> {
  const store = await around.caches.open(documentCache)
  const kept = await store.match(request.url, { ignoreVary: true })
  if (kept && !serverFirst) return kept
  const answer = await around.fetch(request).catch((failure) => {
    if (kept) return kept
    throw failure
  })
  if (answer === kept) return answer
  if (answer.ok) {
    const headers = new Headers(answer.headers)
    // The body is kept as it was decoded.
    headers.delete('content-encoding')
    headers.delete('content-length')
    const body = await answer.clone().arrayBuffer()
    await store
      .put(request.url, new Response(body, { status: answer.status, headers }))
      .catch(() => undefined)
  }
  return answer
}

async function answerSlice(request: Request, around: Surroundings): Promise<Response> {
  const kept = await (await around.caches.open(sliceCache)).match(request.url, { ignoreVary: true })
  if (!kept) return around.fetch(request)
  return cutRange(kept, request.headers.get('range'))
}

/** The same answer, marked with when it was kept. */
async function dated(answer: Response, atEpochMs: number): Promise<Response> {
  const headers = new Headers(answer.headers)
  headers.set(keptAtHeader, String(atEpochMs))
  // The body is kept as it was decoded.
  headers.delete('content-encoding')
  headers.delete('content-length')
  return new Response(await answer.arrayBuffer(), { status: answer.status, headers })
}

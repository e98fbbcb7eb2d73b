import { type SiteEvent, siteEventSchema } from '#contract/alerts.ts'
import { reportEventsLine } from './events-line.ts'
import { sitePath } from './open-site.ts'

/** What the holder of the line tells the pages of this browser. */
export type Said =
  | { readonly kind: 'event'; readonly event: SiteEvent }
  /** The line stands again: whatever happened meanwhile was not told. */
  | { readonly kind: 'open' }
  | { readonly kind: 'lost'; readonly sinceEpochMs: number }

const longestWaitMs = 60_000

/**
 * Hears the events of a site until `signal` ends it. A browser opens few connections to one server, so of all pages of
 * one site in a browser one holds the line and tells the others; when it is closed another takes over.
 */
export function hearSiteEvents(site: string, told: (said: Said) => void, signal: AbortSignal): void {
  const name = `stillground-events ${site}`
  const pages = new BroadcastChannel(name)
  let last: Said | null = null
  const take = (said: Said) => {
    if (signal.aborted) return
    if (said.kind !== 'event') {
      last = said
      reportEventsLine(said.kind === 'lost' ? said.sinceEpochMs : null)
    }
    told(said)
  }
  const hold = () => {
    const tell = (said: Said) => {
      take(said)
      pages.postMessage(said)
    }
    // A page that was opened later does not know how the line stands.
    pages.onmessage = ({ data }) => {
      if (data === asksForLine && last) pages.postMessage(last)
      else if (data !== asksForLine) take(data as Said)
    }
    return holdLine(sitePath(site, '/events'), tell, signal)
  }
  pages.onmessage = ({ data }) => {
    if (data !== asksForLine) take(data as Said)
  }
  pages.postMessage(asksForLine)
  signal.addEventListener('abort', () => {
    pages.close()
    reportEventsLine(null)
  })
  // Only an address of trust has locks; elsewhere every page holds a line of its own.
  const locks = navigator.locks as LockManager | undefined
  if (locks) locks.request(name, { signal }, hold).catch(() => undefined)
  else void hold()
}

const asksForLine = 'how does the line stand'

async function holdLine(path: string, tell: (said: Said) => void, signal: AbortSignal): Promise<void> {
  let failures = 0
  let lostAtEpochMs: number | null = null
  while (!signal.aborted) {
    await untilGivenUp(path, signal, {
      opened: () => {
        failures = 0
        lostAtEpochMs = null
        tell({ kind: 'open' })
      },
      lost: () => {
        lostAtEpochMs ??= Date.now()
        tell({ kind: 'lost', sinceEpochMs: lostAtEpochMs })
      },
      heard: (event) => tell({ kind: 'event', event }),
    })
    failures += 1
    // Spread, so that many pages do not all come back at once.
    const waitMs = Math.min(longestWaitMs, 1000 * 2 ** failures) * (0.75 + 0.5 * Math.random())
    await new Promise((resolve) => setTimeout(resolve, waitMs))
  }
}

interface Line {
  readonly opened: () => void
  readonly lost: () => void
  readonly heard: (event: SiteEvent) => void
}

/** The browser comes back by itself after a broken line, but not after a refusal. */
function untilGivenUp(path: string, signal: AbortSignal, line: Line): Promise<void> {
  return new Promise((done) => {
    const source = new EventSource(path)
    const end = () => {
      source.close()
      done()
    }
    const hear = ({ data }: MessageEvent) => {
      const event = readEvent(String(data))
      if (event) line.heard(event)
    }
    source.onopen = line.opened
    source.onmessage = hear
    for (const kind of ['alerts', 'published']) source.addEventListener(kind, hear as EventListener)
    source.onerror = () => {
      line.lost()
      if (source.readyState === EventSource.CLOSED) end()
    }
    signal.addEventListener('abort', end)
  })
}

/** Null for an event that this page does not know: a newer server has more of them. */
export function readEvent(data: string): SiteEvent | null {
  try {
    const read = siteEventSchema.safeParse(JSON.parse(data))
    return read.success ? read.data : null
  } catch {
    return null
  }
}

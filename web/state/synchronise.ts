import { createSignal, onCleanup } from 'solid-js'
import { fieldDatabase } from '../offline/field-database.ts'
import { fieldServer } from '../offline/field-server.ts'
import { type SendingProgress, sendOutbox } from '../offline/send-outbox.ts'
import { sync } from '../ui/sync.ts'
import { sentenceOf } from './ask-server.ts'
import { readKnownEntries } from './field-work.ts'
import { isFrozen } from './frozen.ts'
import { hindranceTo } from './permitted.ts'
import { siteDocument } from './site-document.ts'

const [sending, setSending] = createSignal<SendingProgress | null>(null)
const [trouble, setTrouble] = createSignal<string | null>(null)

export {
  /** How far sending is; null while nothing is being sent. */
  sending as sendingProgress,
  /** Why the last attempt ended early; null: it did not. */
  trouble as synchronisingTrouble,
}

const everyMs = 60_000
const longestWaitMs = 300_000

/** Keeps the outbox moving: after something was written, when the network comes back, and every so often. */
export function keepSynchronised(): void {
  // Another page of this device, or this one at the present, sends what waits.
  if (isFrozen()) return
  let timer: ReturnType<typeof setTimeout> | undefined
  let failures = 0
  let running: AbortController | null = null
  let again = false
  const attempt = async () => {
    clearTimeout(timer)
    const site = siteDocument()?.facts.id
    // Whoever may neither read nor add field work would be refused every minute.
    if (site === undefined || hindranceTo('read-all') !== null) return
    if (running) {
      again = true
      return
    }
    running = new AbortController()
    try {
      await synchronise(site, running.signal)
      failures = 0
      tellTabs()
    } catch {
      failures++
    }
    running = null
    // Spread, so that many devices do not all come back at once.
    const waitMs = failures === 0 ? everyMs : Math.min(longestWaitMs, 5000 * 2 ** failures)
    timer = setTimeout(attempt, again ? 0 : waitMs * (0.75 + 0.5 * Math.random()))
    again = false
  }
  const now = () => void attempt()
  // Another tab of this page on this device writes into the same outbox, and sends it.
  const tabs = new BroadcastChannel('stillground-field-work')
  tabs.onmessage = () => {
    const site = siteDocument()?.facts.id
    if (site !== undefined) readKnownEntries(site).catch(() => undefined)
  }
  const tellTabs = () => tabs.postMessage(null)
  sync(() => [siteDocument()?.facts.id, hindranceTo('read-all')], now)
  addEventListener('field-work-written', now)
  addEventListener('field-work-written', tellTabs)
  addEventListener('online', now)
  onCleanup(() => {
    clearTimeout(timer)
    running?.abort()
    removeEventListener('field-work-written', now)
    removeEventListener('field-work-written', tellTabs)
    tabs.close()
    removeEventListener('online', now)
  })
}

/** Sends and receives once; rejects, and says why, where the server does not answer. One tab at a time does it. */
export async function synchronise(site: string, signal?: AbortSignal): Promise<void> {
  try {
    const database = await fieldDatabase()
    await navigator.locks.request('stillground-outbox', () =>
      sendOutbox({
        site,
        database,
        server: fieldServer,
        now: () => Date.now(),
        onProgress: setSending,
        ...(signal && { signal }),
      }),
    )
    setTrouble(null)
  } catch (cause) {
    setTrouble(sentenceOf(cause))
    throw cause
  } finally {
    setSending(null)
    await readKnownEntries(site).catch(() => undefined)
  }
}

import { createSignal } from 'solid-js'
import type { NetworkDocument } from '#contract/network-document.ts'
import { slicesRevision } from '../../state/analysis.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { clockEpochMs, isAtPresent } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { newestNext } from '../../ui/newest-next.ts'
import { sync } from '../../ui/sync.ts'

interface Question {
  readonly site: string
  /** Null: the present. */
  readonly atEpochMs: number | null
}

/** What the server measured of the loggers at the site clock; asked anew when the clock or what is published changes. */
export function createNetworkDocument() {
  const [document, setDocument] = createSignal<NetworkDocument | null>(null)
  const [waiting, setWaiting] = createSignal(false)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  let newest: Question | null = null
  const ask = newestNext(
    ({ site, atEpochMs }: Question) => {
      const at = atEpochMs === null ? '' : `?at=${new Date(atEpochMs).toISOString()}`
      return askServer<NetworkDocument>(`/api/sites/${encodeURIComponent(site)}/network${at}`)
    },
    (answer, question) => {
      setTrouble(null)
      setDocument(answer)
      if (question === newest) setWaiting(false)
    },
    (cause) => {
      // Of another instant nothing is shown in its place.
      setDocument(null)
      setWaiting(false)
      setTrouble(
        `The state of the network at the clock is not known here: ${sentenceOf(cause)} It is worked out by the server from the receipts.`,
      )
    },
  )
  sync(
    () => ({
      site: siteDocument()?.facts.id,
      at: isAtPresent() ? null : clockEpochMs(),
      revision: slicesRevision(),
    }),
    ({ site, at }) => {
      if (site === undefined) return
      newest = { site, atEpochMs: at }
      setWaiting(true)
      ask(newest)
    },
  )
  return { document, waiting, trouble }
}

import { createSignal, onCleanup } from 'solid-js'
import type { NetworkDocument } from '#contract/network-document.ts'
import { slicesRevision } from '../../state/analysis.ts'
import { askServerWithin, sentenceOf } from '../../state/ask-server.ts'
import { isFrozen } from '../../state/frozen.ts'
import { sitePath } from '../../state/open-site.ts'
import { clockEpochMs, isAtPresent } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { movingSiteNowEpochMs } from '../../state/site-now.ts'
import { newestNext } from '../../ui/newest-next.ts'
import { sync } from '../../ui/sync.ts'
import { networkAgeSentence } from './network-age-sentence.ts'

interface Question {
  readonly site: string
  /** Null: the present. */
  readonly atEpochMs: number | null
  /** Asked of the present again, while its last answer stands. */
  readonly again: boolean
}

const askEveryMs = 5 * 60_000
const lookEveryMs = 30_000
/** It is worked out when it is asked for. */
const withinMs = 120_000

/**
 * What the server measured of the loggers at the site clock. Asked anew when the clock or what is published changes,
 * and every five minutes of the present: where a gateway died nothing is published. `atEpochMs` gives another instant.
 */
export function createNetworkDocument(
  atEpochMs: () => number | null = () => (isAtPresent() ? null : clockEpochMs()),
  /** Of what a client may see only counts can be made: whoever shows findings would show that there are none. */
  countsSuffice = false,
) {
  const [document, setDocument] = createSignal<NetworkDocument | null>(null)
  const [waiting, setWaiting] = createSignal(false)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  let newest: Question | null = null
  let askedEpochMs = 0
  const ask = newestNext(
    ({ site, atEpochMs }: Question) => {
      const at = atEpochMs === null ? '' : `?at=${new Date(atEpochMs).toISOString()}`
      return askServerWithin<NetworkDocument>(sitePath(site, `/network${at}`), withinMs)
    },
    (answer, question) => {
      const tooLittle = answer.forClients === true && !countsSuffice
      setTrouble(
        tooLittle ? 'The state of single loggers is not for whoever reads by a link or as a viewer.' : null,
      )
      setDocument(tooLittle ? null : answer)
      if (question === newest) setWaiting(false)
    },
    (cause, question) => {
      // What stands is of the same present and says how old it is.
      if (question.again && document()?.site === question.site) return
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
      // Of frozen data there is one, that of the cut-off; it says of when it is.
      at: isFrozen() ? null : atEpochMs(),
      revision: slicesRevision(),
    }),
    ({ site, at }) => {
      if (site === undefined) return
      newest = { site, atEpochMs: at, again: false }
      askedEpochMs = Date.now()
      setWaiting(true)
      ask(newest)
    },
  )
  const askAgain = () => {
    if (!newest || newest.atEpochMs !== null || isFrozen() || globalThis.document.hidden) return
    if (Date.now() - askedEpochMs < askEveryMs) return
    askedEpochMs = Date.now()
    newest = { ...newest, again: !waiting() && trouble() === null }
    ask(newest)
  }
  const timer = setInterval(askAgain, lookEveryMs)
  onCleanup(() => clearInterval(timer))
  const ageSentence = () => {
    const known = document()
    return known && isAtPresent() ? networkAgeSentence(known.asOfEpochMs, movingSiteNowEpochMs()) : null
  }
  return { document, waiting, trouble, ageSentence }
}

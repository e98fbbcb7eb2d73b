import { createSignal } from 'solid-js'
import type { DutiesDocument } from '#contract/duties-document.ts'
import { askServerWithin, keptAtEpochMs, sentenceOf } from './ask-server.ts'
import { sitePath, statesWithinMs } from './open-site.ts'
import { siteDocument } from './site-document.ts'

const [heard, setHeard] = createSignal<{ document: DutiesDocument; askedEpochMs: number } | null>(null)
const [trouble, setTrouble] = createSignal<string | null>(null)

/** Who is told at the open site, as last heard; null: not known here. */
export const dutiesDocument = (): DutiesDocument | null => {
  const known = heard()?.document ?? null
  return known?.site === siteDocument()?.facts.id ? known : null
}

/** Why what is shown may be of before, or is not known at all; null: the server answered. */
export const dutiesTrouble = trouble

/** When the server, by this device's clock, was last asked with an answer. */
export const dutiesAskedEpochMs = (): number | null => heard()?.askedEpochMs ?? null

/** Asks who is told. A failure leaves what was known, and is told beside it. */
export async function refreshDuties(site: string): Promise<void> {
  try {
    const document = await askServerWithin<DutiesDocument>(sitePath(site, '/duties'), statesWithinMs)
    const keptAt = keptAtEpochMs(document)
    setHeard({ document, askedEpochMs: keptAt ?? Date.now() })
    setTrouble(keptAt === null ? null : 'The server was not reached; this is what the device kept.')
  } catch (cause) {
    setTrouble(sentenceOf(cause))
  }
}

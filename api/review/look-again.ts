import { heldVerdicts } from '#domain/review/held-verdicts.ts'
import { networkDocument } from '../network/network-document.ts'
import type { Publisher } from '../slices/publisher.ts'
import type { Store } from '../store/store.ts'
import { judgeBeside } from './judge-beside.ts'
import type { JudgedVerdicts } from './judge-verdicts.ts'

/** What the verdicts of a site were held against, and what came of it. */
export interface LookedAgain extends JudgedVerdicts {
  /** Of readings, records and hour: while it is the same, so is what comes of it. */
  readonly key: string
  readonly revision: number
  readonly asOfEpochMs: number
  readonly held: number
}

const hourMs = 3_600_000
const dayMs = 24 * hourMs
/** Nothing is asked of slices that end longer before the first verdict that holds; a case begins a month or eight readings before it. */
const reachMs = 365 * dayMs

/**
 * Holds the verdicts of a site against what is published now, as known at the last whole hour; gives `last` back where
 * nothing that counts has changed since. Null: no such site. Where no verdict holds nothing is read.
 */
export async function lookAgain(
  {
    store,
    publisher,
  }: {
    readonly store: Store
    readonly publisher: Pick<Publisher, 'siteDocument' | 'sliceList' | 'sliceFile'>
  },
  site: string,
  nowEpochMs: number,
  last: LookedAgain | null,
): Promise<LookedAgain | null> {
  const model = await store.getSite(site)
  const list = model && (await publisher.sliceList(site))
  if (!model || !list) return null
  const asOfEpochMs = Math.floor((model.facts.presentEpochMs ?? nowEpochMs) / hourMs) * hourMs
  const held = heldVerdicts(model, asOfEpochMs)
  const found = (key: string, { verdicts, unjudged }: JudgedVerdicts): LookedAgain => ({
    key,
    revision: list.revision,
    asOfEpochMs,
    held: held.length,
    verdicts,
    unjudged,
  })
  if (held.length === 0) return found('', { verdicts: [], unjudged: [] })
  const sinceEpochMs = Math.min(...held.map(({ fromAt }) => fromAt)) - reachMs
  const slices = list.slices.filter(
    ({ resolution, fromEpochMs, untilEpochMs }) =>
      resolution === 'raw' && untilEpochMs > sinceEpochMs && fromEpochMs <= asOfEpochMs,
  )
  const document = await publisher.siteDocument(site)
  if (!document) return null
  const key = [asOfEpochMs, document.etag, ...slices.map(({ sha256 }) => sha256)].join(' ')
  // What failed is tried again, whether or not anything is new.
  if (last?.key === key && !last.unjudged.some(({ why }) => why === 'failed')) return found(key, last)
  const files: string[] = []
  for (const { url } of slices) {
    const name = url.split('/').at(-1) ?? ''
    const file = await publisher.sliceFile(site, name)
    if (!file) throw new Error(`The slice ${name} was replaced meanwhile.`)
    files.push(file)
  }
  const network = await networkDocument(store, site, model, asOfEpochMs)
  return found(key, await judgeBeside({ site: document.json, verdicts: held, network, asOfEpochMs, files }))
}

import { createMemo, createRoot, createSignal } from 'solid-js'
import type { ContradictedVerdicts } from '#contract/contradicted-verdicts.ts'
import { groupBy } from '#domain/group-by.ts'
import { askServer, sentenceOf } from './ask-server.ts'
import { isFrozen } from './frozen.ts'
import { sitePath } from './open-site.ts'
import { isAtPresent } from './site-clock.ts'
import { siteDocument } from './site-document.ts'

export type ContradictedVerdict = ContradictedVerdicts['verdicts'][number]

const [known, setKnown] = createSignal<ContradictedVerdicts | null>(null)
const [trouble, setTrouble] = createSignal<{ readonly site: string; readonly sentence: string } | null>(null)

/** What the server found of the open site when something was last published; null: not known. */
export const contradictedVerdicts = (): ContradictedVerdicts | null => {
  const heard = known()
  return heard !== null && heard.site === siteDocument()?.facts.id ? heard : null
}

/** Why it is not known; null: it is, or was not asked for. */
export const contradictionTrouble = (): string | null =>
  trouble()?.site === siteDocument()?.facts.id ? (trouble()?.sentence ?? null) : null

/** Asks the server which verdicts newer data contradict. */
export async function refreshContradicted(site: string): Promise<void> {
  try {
    setKnown(await askServer<ContradictedVerdicts>(sitePath(site, '/contradicted-verdicts')))
    setTrouble(null)
  } catch (cause) {
    // What was known stands: it says of when it is.
    setTrouble({ site, sentence: `Which verdicts newer data contradict is not known: ${sentenceOf(cause)}` })
  }
}

/** Contradicted verdicts by their series, those that were upheld since left out; empty at a past clock: they are of the present. */
export const contradictedBySeries = createRoot(() =>
  createMemo((): ReadonlyMap<string, readonly ContradictedVerdict[]> => {
    const [document, found] = [siteDocument(), contradictedVerdicts()]
    if (!document || !found || isFrozen() || !isAtPresent()) return new Map()
    const looks = groupBy(document.verdictReviews, ({ verdict }) => verdict)
    const isUpheld = (verdict: string) =>
      (looks.get(verdict) ?? []).toSorted((one, other) => one.at - other.at).at(-1)?.outcome === 'upheld'
    return groupBy(
      found.verdicts.filter(({ verdict }) => !isUpheld(verdict)),
      ({ series }) => series,
    )
  }),
)

/** A remark on whatever shows these series; empty where no verdict on them is contradicted. */
export function contradictionRemark(series: readonly string[]): string {
  const found = series.flatMap((id) => contradictedBySeries().get(id) ?? [])
  return found.length === 0
    ? ''
    : `newer data contradict verdict ${found.map(({ verdict }) => verdict).join(', ')}`
}

import { createSignal } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import type { RemarkedTrail } from '#contract/trail.ts'
import { askServer, sentenceOf } from '../../state/ask-server.ts'
import { sitePath } from '../../state/open-site.ts'
import { siteDocument } from '../../state/site-document.ts'
import { latestOnly } from '../../ui/latest-only.ts'
import type { SingleAsked } from './create-review.ts'

/** A reading to be asked about by itself. What was read there, and before it, is asked of the server: slices hold values. */
export function createSingle() {
  const [asked, setAsked] = createSignal<SingleAsked | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const ask = latestOnly(async ([id, at, before]: readonly [string, number, number], signal: AbortSignal) => {
    const site = siteDocument()?.facts.id ?? ''
    const of = (atEpochMs: number) =>
      askServer<RemarkedTrail>(
        sitePath(
          site,
          `/trail?${new URLSearchParams({ series: id, at: new Date(atEpochMs).toISOString() })}`,
        ),
        signal,
      )
    return Promise.all([of(at), of(before)])
  })
  const rawOf = (trail: RemarkedTrail | undefined, atEpochMs: number) =>
    trail?.atEpochMs === atEpochMs ? trail.sources.find(({ role }) => role === 'reading')?.raw : undefined
  return {
    asked,
    trouble,
    forget: () => setAsked(null),
    /** `before`: the reading before it, null where there is none. */
    choose(series: Series, atEpochMs: number, before: number | null) {
      setAsked({ atEpochMs, raw: null })
      setTrouble(null)
      if (series.made || before === null) return
      ask([series.id, atEpochMs, before]).then(
        (trails) => {
          if (!trails || asked()?.atEpochMs !== atEpochMs) return
          const [raw, rawBefore] = [rawOf(trails[0], atEpochMs), rawOf(trails[1], before)]
          const value = trails[1]?.value
          if (raw == null || rawBefore == null || value == null) return
          setAsked({ atEpochMs, raw: { raw, before: { raw: rawBefore, value } } })
        },
        (cause) => setTrouble(`What was read there is not known here: ${sentenceOf(cause)}`),
      )
    },
  }
}

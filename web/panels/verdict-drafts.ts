import { createSignal } from 'solid-js'
import type { VerdictReviewOutcome } from '#domain/site/verdict-words.ts'
import { siteDocument } from '../state/site-document.ts'
import type { VerdictFields } from './verdict-fields.ts'

const [drafts, setDrafts] = createSignal<ReadonlyMap<string, unknown>>(new Map())

/**
 * What somebody is typing in the forms of a kind, each by what it is about: it outlives another tab, another panel and another
 * selection, until it is saved or left; not the page being closed. `of` is null where nothing is begun.
 */
function draftsOf<Typed>(kind: string) {
  const place = (about: string) => `${siteDocument()?.facts.id ?? ''} ${kind} ${about}`
  return {
    of: (about: string): Typed | null => (drafts().get(place(about)) as Typed | undefined) ?? null,
    keep: (about: string, typed: Typed): void => {
      setDrafts((now) => new Map([...now, [place(about), typed]]))
    },
    leave: (about: string): void => {
      const left = place(about)
      setDrafts((now) => new Map([...now].filter(([at]) => at !== left)))
    },
  }
}

/** Of new verdicts, by the series that the form offers. */
export const verdictDrafts = draftsOf<VerdictFields>('verdict')

/** What a form on these series is about: one series is the same draft wherever it is written. */
export const aboutSeries = (series: readonly { readonly id: string }[]): string =>
  series.map(({ id }) => id).join(' ')

/** Reasons for taking a verdict back, by its id. */
export const withdrawalDrafts = draftsOf<string>('withdrawal')

/** Second looks at a verdict, by its id. */
export const secondLookDrafts = draftsOf<{
  readonly outcome: VerdictReviewOutcome | ''
  readonly found: string
  readonly reason: string
}>('second look')

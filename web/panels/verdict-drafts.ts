import { createSignal } from 'solid-js'
import { siteDocument } from '../state/site-document.ts'
import type { VerdictFields } from './verdict-fields.ts'

const [drafts, setDrafts] = createSignal<ReadonlyMap<string, VerdictFields>>(new Map())

const place = (series: string) => `${siteDocument()?.facts.id ?? ''} ${series}`

/**
 * A verdict that somebody is writing on a series in its review: it outlives a look at its neighbours, another tab and another
 * selection, until it is saved or left; not the page being closed. Null: none.
 */
export const verdictDraft = (series: string): VerdictFields | null => drafts().get(place(series)) ?? null

export function keepVerdictDraft(series: string, fields: VerdictFields): void {
  setDrafts((now) => new Map([...now, [place(series), fields]]))
}

export function leaveVerdictDraft(series: string): void {
  setDrafts((now) => new Map([...now].filter(([at]) => at !== place(series))))
}

import { For } from 'solid-js'
import type { VerdictEffect } from '#domain/site/verdict-words.ts'
import { effectSentence, openVerdictEffects } from '../derived/open-verdict-effects.ts'
import { clockEpochMs, spanEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'

/** What verdicts ask for about some series at the clock, a sentence each; nothing where they ask for nothing. */
export function VerdictRemarks(props: {
  about: (series: string) => boolean
  effects: readonly VerdictEffect[]
}) {
  const sentences = () => {
    const document = siteDocument()
    if (!document) return []
    return openVerdictEffects(document, clockEpochMs() ?? spanEpochMs().untilEpochMs)
      .filter(({ verdict, effect }) => props.effects.includes(effect) && props.about(verdict.series))
      .map((one) => effectSentence(one, document.facts.timeZone))
  }
  return <For each={sentences()}>{(sentence) => <p class="trouble">{sentence}</p>}</For>
}

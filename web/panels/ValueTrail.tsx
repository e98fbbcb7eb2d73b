import { createMemo, createSignal, For, Show } from 'solid-js'
import type { RemarkedTrail } from '#contract/trail.ts'
import { askServer, sentenceOf } from '../state/ask-server.ts'
import { sitePath } from '../state/open-site.ts'
import { publishing } from '../state/publishing.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatInstant, formatOffset } from '../ui/format-instant.ts'
import { withUnit } from '../ui/format-value.ts'
import { latestOnly } from '../ui/latest-only.ts'
import { sync } from '../ui/sync.ts'
import { SourceTrail } from './SourceTrail.tsx'
import { TrailSteps } from './TrailSteps.tsx'
import { resultText, uncertaintyText } from './trail-numbers.ts'
import { meaningOfUncertainty } from './uncertainty-meaning.ts'

/** How the value of a series at the clock was computed, from the raw reading on. */
export function ValueTrail(props: { id: string; name: string }) {
  const [trail, setTrail] = createSignal<RemarkedTrail | null>(null)
  const [trouble, setTrouble] = createSignal<string | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const ask = latestOnly((path: string, signal: AbortSignal) => askServer<RemarkedTrail>(path, signal))
  // Asked again when values begin and end to be worked out anew, not at every progress between.
  const published = createMemo(() => `${publishing()?.behind} ${publishing()?.publishedRevision}`)
  sync(
    () => {
      published()
      const site = siteDocument()?.facts.id
      const at = clockEpochMs()
      if (site === undefined || at === null) return null
      const question = new URLSearchParams({ series: props.id, at: new Date(at).toISOString() })
      return sitePath(site, `/trail?${question}`)
    },
    (path) => {
      if (path === null) return
      // The clock may be running: a question is asked when it has stood for a moment.
      const timer = setTimeout(() => {
        ask(path).then(
          (answer) => {
            if (!answer) return
            setTrouble(null)
            setTrail(answer)
          },
          (cause) => {
            setTrail(null)
            setTrouble(sentenceOf(cause))
          },
        )
      }, 250)
      return () => clearTimeout(timer)
    },
  )
  return (
    <section class="trail" aria-label="How this was computed">
      <h3>How this was computed: {props.name}</h3>
      <Show when={trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
      <Show
        when={trail()}
        fallback={
          <Show when={!trouble()}>
            <p class="waiting">Asking for the trail …</p>
          </Show>
        }
      >
        {(shown) => (
          <>
            <p class="trail-result">
              <strong>
                {withUnit(resultText(shown().value, shown().standardUncertainty), shown().unit)}
              </strong>
              <Show when={shown().standardUncertainty !== null}>
                {' '}
                ± {withUnit(uncertaintyText(shown().standardUncertainty), shown().unit)} (standard
                uncertainty)
              </Show>{' '}
              at {formatInstant(shown().atEpochMs, zone())} {formatOffset(shown().atEpochMs, zone())}
            </p>
            <Show when={shown().standardUncertainty}>
              {(one) => <p class="trail-meaning">{meaningOfUncertainty(one(), shown().unit)}</p>}
            </Show>
            <Show when={shown().changeSentence}>
              {(sentence) => <p class="trail-meaning">{sentence()}</p>}
            </Show>
            <Show when={shown().pending}>{(pending) => <p class="trouble">{pending().sentence}</p>}</Show>
            <For each={shown().cautions}>{(caution) => <p class="trouble">{caution}</p>}</For>
            <For each={shown().marks}>{(mark) => <p class="trouble">{mark}</p>}</For>
            <For each={shown().verdicts}>{(verdict) => <p>{verdict}</p>}</For>
            <For each={shown().sources}>{(source) => <SourceTrail source={source} zone={zone()} />}</For>
            <Show when={shown().derived.length > 0}>
              <h4>What was made of them</h4>
              <TrailSteps steps={shown().derived} />
            </Show>
          </>
        )}
      </Show>
    </section>
  )
}

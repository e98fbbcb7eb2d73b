import { createSignal, For, Show } from 'solid-js'
import type { Verdict } from '#domain/site/tables.ts'
import {
  type ContradictedVerdict,
  contradictedVerdicts,
  contradictionTrouble,
} from '../../state/contradicted-verdicts.ts'
import { isFrozen } from '../../state/frozen.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant, formatShortInstant } from '../../ui/format-instant.ts'
import { openReviewOf } from './open-review-of.ts'
import { sentenceOfContradicted } from './sentence-of-contradicted.ts'
import { UnjudgedVerdicts } from './UnjudgedVerdicts.tsx'
import { VerdictReviewForm } from './VerdictReviewForm.tsx'

/**
 * Verdicts of the whole site that newer data contradict, as the server found them when something was last published: told
 * without the point being open. A person reopens or upholds each; nothing is withdrawn by itself.
 */
export function ContradictedVerdicts() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const sentence = () => {
    const found = contradictedVerdicts()
    if (!found || found.asOfEpochMs === null)
      return 'The verdicts of this site are being held against what was published last.'
    const when = `as known at ${formatShortInstant(found.asOfEpochMs, zone())}`
    const later = found.behind ? ' Something was published since and will be looked at.' : ''
    return `${sentenceOfContradicted(found, when)}${later}`
  }
  return (
    <Show when={!isFrozen() && hindranceTo('read-all') === null}>
      <section aria-label="Verdicts that newer data contradict" class="verdicts-contradicted">
        <h3>Verdicts that newer data contradict</h3>
        <p>{sentence()}</p>
        <Show when={contradictionTrouble()}>{(trouble) => <p class="waiting">{trouble()}</p>}</Show>
        <Show when={contradictedVerdicts()?.failure}>{(failure) => <p class="trouble">{failure()}</p>}</Show>
        <UnjudgedVerdicts />
        <Show when={contradictedVerdicts()?.verdicts.length}>
          <ul class="verdicts-again">
            <For each={contradictedVerdicts()?.verdicts}>{(found) => <Contradicted found={found} />}</For>
          </ul>
        </Show>
      </section>
    </Show>
  )
}

function Contradicted(props: { found: ContradictedVerdict }) {
  const [entering, setEntering] = createSignal(false)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const verdict = (): Verdict | undefined =>
    siteDocument()?.verdicts.find(({ id }) => id === props.found.verdict)
  const lastLook = () =>
    (siteDocument()?.verdictReviews ?? [])
      .filter((look) => look.verdict === props.found.verdict)
      .toSorted((one, other) => one.at - other.at)
      .at(-1)
  return (
    <li>
      <strong>
        {props.found.verdict}, {props.found.series}: {verdict()?.verdict}
        {verdict()?.cause ? `, laid on ${verdict()?.cause}` : ''}
      </strong>{' '}
      <small>
        {verdict()?.author}
        {verdict() ? `, ${formatShortInstant(verdict()?.at ?? 0, zone())}` : ''}
      </small>
      <For each={props.found.contradictions}>{({ sentence }) => <p class="trouble">{sentence}</p>}</For>
      <Show when={lastLook()}>
        {(look) => (
          <p>
            {look().outcome === 'reopened' ? 'Reopened' : 'Upheld'} by {look().author} on{' '}
            {formatInstant(look().at, zone())}: {look().reason}
          </p>
        )}
      </Show>
      <div class="buttons">
        <button
          type="button"
          aria-label={`Evidence of ${props.found.series}`}
          onClick={() => openReviewOf(props.found.series)}
        >
          Open its evidence
        </button>
        <Show when={hindranceTo('change-records') === null && !entering() && verdict()}>
          <button
            type="button"
            aria-label={`Reopen or uphold ${props.found.verdict}, contradicted`}
            onClick={() => setEntering(true)}
          >
            Reopen or uphold
          </button>
        </Show>
      </div>
      <Show when={entering() && verdict()}>
        {(shown) => (
          <VerdictReviewForm
            verdict={shown()}
            found={props.found.contradictions.map(({ sentence }) => sentence).join(' ')}
            leave={() => setEntering(false)}
          />
        )}
      </Show>
    </li>
  )
}

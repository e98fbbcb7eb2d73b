import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import { heldVerdicts } from '#domain/review/held-verdicts.ts'
import { againStretch, contradictionsNow } from '#domain/review/verdict-again.ts'
import type { Verdict } from '#domain/site/tables.ts'
import { hindranceTo } from '../../state/permitted.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument, siteLookup } from '../../state/site-document.ts'
import { formatInstant, formatShortInstant } from '../../ui/format-instant.ts'
import { createNetworkDocument } from '../network/create-network-document.ts'
import { secondLookDrafts } from '../verdict-drafts.ts'
import { createReview } from './create-review.ts'
import { VerdictReviewForm } from './VerdictReviewForm.tsx'

/**
 * Verdicts that held at the clock, each held against what was known then: what speaks against it now, and the way to
 * reopen or uphold it. Of one series, or of all of the site.
 */
export function VerdictsAgain(props: { series?: string }) {
  const network = createNetworkDocument()
  const verdicts = createMemo((): readonly Verdict[] => {
    const [document, at] = [siteDocument(), clockEpochMs()]
    return document && at !== null ? heldVerdicts(document, at, props.series) : []
  })
  return (
    <Show
      when={verdicts().length > 0}
      fallback={
        <p>
          No verdict {props.series === undefined ? 'at this site' : `on ${props.series}`} held at the clock.
        </p>
      }
    >
      <ul class="verdicts-again">
        <For each={verdicts()}>
          {(verdict) => (
            <Show
              when={siteLookup().seriesById.get(verdict.series)}
              fallback={
                <li>
                  {verdict.id} is about {verdict.series}, which has no values any more.
                </li>
              }
            >
              {(series) => <VerdictAgain verdict={verdict} series={series()} network={network} />}
            </Show>
          )}
        </For>
      </ul>
    </Show>
  )
}

function VerdictAgain(props: {
  verdict: Verdict
  series: Series
  network: ReturnType<typeof createNetworkDocument>
}) {
  const [begun, setBegun] = createSignal(false)
  const entering = () => begun() || secondLookDrafts.of(props.verdict.id) !== null
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const review = createReview(
    () => props.series,
    () => againStretch(props.verdict, props.series, clockEpochMs()),
    () => props.verdict.oddity ?? 'value',
    props.network,
  )
  const found = createMemo(() => {
    const [document, reviewed] = [siteDocument(), review.reviewed()]
    return document && reviewed ? contradictionsNow(props.verdict, document.verdictEvidence, reviewed) : null
  })
  const isAnyNewer = () => (review.reviewed()?.subject.atEpochMs.at(-1) ?? 0) > props.verdict.at
  const looks = () =>
    (siteDocument()?.verdictReviews ?? [])
      .filter(({ verdict, at }) => verdict === props.verdict.id && at <= (clockEpochMs() ?? at))
      .toSorted((one, other) => one.at - other.at)
  const asOf = () => formatShortInstant(review.stretch()?.asOfEpochMs ?? 0, zone())
  return (
    <li>
      <strong>
        {props.verdict.id}, {props.verdict.series}: {props.verdict.verdict}
        {props.verdict.cause ? `, laid on ${props.verdict.cause}` : ''}
      </strong>{' '}
      <small>
        {props.verdict.author}, {formatShortInstant(props.verdict.at, zone())}
      </small>
      <Show when={found()} fallback={<p class="waiting">Holding it against what is known …</p>}>
        {(contradictions) => (
          <>
            <Show when={contradictions().length === 0}>
              <Show
                when={isAnyNewer()}
                fallback={
                  <p>
                    It could not be held against anything newer: no value of {props.verdict.series} that was
                    taken since it was found is known at {asOf()}.
                  </p>
                }
              >
                <p>
                  Nothing that these rules look for speaks against it, as known at {asOf()}.
                  {props.verdict.cause ? '' : ' It names no cause, so little could be held against it.'}
                </p>
              </Show>
            </Show>
            <For each={contradictions()}>
              {({ sentence }) => (
                <p class="trouble">
                  {sentence} <small>Known at {asOf()}.</small>
                </p>
              )}
            </For>
          </>
        )}
      </Show>
      <For each={review.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <For each={looks()}>
        {(look) => (
          <p>
            {look.outcome === 'reopened' ? 'Reopened' : 'Upheld'} by {look.author} on{' '}
            {formatInstant(look.at, zone())}: {look.reason} <small>Against it spoke: {look.found}</small>
          </p>
        )}
      </For>
      <Show when={looks().at(-1)?.outcome === 'reopened'}>
        <p>It holds until it is withdrawn, or a later verdict overrides it.</p>
      </Show>
      <Show when={hindranceTo('change-records') === null}>
        <Show
          when={entering()}
          fallback={
            <div class="buttons">
              <button
                type="button"
                aria-label={`Reopen or uphold ${props.verdict.id}`}
                onClick={() => setBegun(true)}
              >
                Reopen or uphold
              </button>
            </div>
          }
        >
          <VerdictReviewForm
            verdict={props.verdict}
            found={(found() ?? []).map(({ sentence }) => sentence).join(' ')}
            leave={() => setBegun(false)}
          />
        </Show>
      </Show>
    </li>
  )
}

import { createSignal, For, Show } from 'solid-js'
import type { PlacedInstrument } from '#contract/site-document.ts'
import type { TraverseCorrectionList } from '#contract/traverse-correction.ts'
import { greatestDeflection } from '#domain/reduction/cumulative-deflection.ts'
import type { TraverseReview } from '#domain/reduction/review-traverse.ts'
import type { TraverseFault } from '#domain/reduction/traverse-faults.ts'
import { correctedDeflections } from '../derived/figures/traverse-figure.ts'
import type { TraverseAxis } from '../derived/traverse-surveys.ts'
import { sendServer } from '../state/ask-server.ts'
import { sitePath } from '../state/open-site.ts'
import { watchPublishing } from '../state/publishing.ts'
import { siteDocument } from '../state/site-document.ts'
import { announce } from '../ui/announce.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { formatValue } from '../ui/format-value.ts'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { AuthorField } from './signed/AuthorField.tsx'
import { createSignedForm } from './signed/create-signed-form.ts'
import { WordsField } from './signed/WordsField.tsx'
import { reasonForFault } from './traverse-sentences.ts'

/** Taking a fault off a survey, for both faces of every interval at once, as dated calibrations. */
export function TraverseCorrectionForm(props: {
  instrument: PlacedInstrument
  axis: TraverseAxis
  atEpochMs: number
  review: TraverseReview
  fault: TraverseFault
  entered: TraverseCorrectionList | null
  leave: () => void
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const path = (question = '') => sitePath(siteDocument()?.facts.id ?? '', `/traverse-corrections${question}`)
  /** As when the survey was read; what was entered since makes the save refused. */
  const known = () => props.entered
  const [sure, setSure] = createSignal(false)
  const doubtful = () => Math.abs(props.fault.size) < 2 * props.fault.standardError
  /** Of what it takes off an interval, and of the whole casing. */
  const share = () => (props.fault.size === 0 ? 0 : props.fault.standardError / Math.abs(props.fault.size))
  const [holds, setHolds] = createSignal<'survey' | 'onwards'>('survey')
  const form = createSignedForm<'reason' | 'holds'>((column) => (column === 'reason' ? column : null))
  const [reason, setReason] = createSignal(
    reasonForFault(
      props.fault,
      props.instrument.stillBelowMetres ?? null,
      formatShortInstant(props.atEpochMs, zone()),
    ),
  )
  const [saved, setSaved] = createSignal<string | null>(null)

  const save = async (author: string) => {
    const { saved: count } = await sendServer<{ saved: number }>(path(), {
      basis: known()?.basis ?? '',
      instrument: props.instrument.id,
      axis: props.axis,
      surveyAtEpochMs: props.atEpochMs,
      holds: holds(),
      amounts: props.review.intervals.map(({ point }, at) => ({
        point,
        amountOffMm: props.fault.perIntervalMm[at] ?? 0,
        standardErrorMm: Math.abs(props.fault.perIntervalMm[at] ?? 0) * share(),
      })),
      author,
      reason: reason(),
    })
    const sentence = `${count} calibrations were saved together. What is drawn follows once the values are worked out anew.`
    setSaved(sentence)
    announce(sentence)
    void watchPublishing(siteDocument()?.facts.id ?? '')
  }
  const end = () => (props.instrument.fixedEnd === 'head' ? 'head' : 'toe')
  const greatest = () => {
    const after = correctedDeflections(props.review.intervals, end(), props.fault.perIntervalMm)
    return after && greatestDeflection(after)
  }
  return (
    <form class="calibration-form" onSubmit={form.submits(save)} aria-label="Correction of the survey">
      <p>
        Greatest deflection as read {formatValue(props.review.greatestDeflectionMm, 1)} mm, with the
        correction {formatValue(greatest(), 1)} mm. Raw readings stay as they are.
      </p>
      <fieldset>
        <legend>Holds for</legend>
        <For
          each={
            [
              ['survey', 'this survey alone'],
              ['onwards', 'this survey and every later one, until a later version begins'],
            ] as const
          }
        >
          {([which, words]) => (
            <label class="choice">
              <input
                type="radio"
                name={form.idOf('holds')}
                checked={holds() === which}
                onChange={() => setHolds(which)}
              />
              {words}
            </label>
          )}
        </For>
      </fieldset>
      <fieldset>
        <legend>Who and why</legend>
        <AuthorField form={form} />
        <WordsField
          form={form}
          field="reason"
          label="Why it is taken off"
          hint="it is kept with the versions for good"
          wide
          value={reason()}
          write={setReason}
        />
      </fieldset>
      <Show when={(known()?.entered.length ?? 0) > 0}>
        <h5>Entered before for these faces</h5>
        <ul>
          <For each={known()?.entered ?? []}>
            {(one) => (
              <li>
                From {formatShortInstant(one.validFromEpochMs, zone())}, {one.faces} faces: {one.reason}{' '}
                <small>{one.author}</small>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={doubtful()}>
        <label class="choice trouble">
          <input
            type="checkbox"
            checked={sure()}
            onChange={(event) => setSure(event.currentTarget.checked)}
          />
          This fault is not told from scatter. Take it off nevertheless; the reason says why.
        </label>
      </Show>
      {form.faults.summary()}
      <Show
        when={saved()}
        fallback={
          <div class="buttons">
            <WhenAllowed to="change-records">
              <button
                type="submit"
                class="primary"
                disabled={form.sending() || known() === null || (doubtful() && !sure())}
              >
                Save for all {props.review.intervals.length} intervals
              </button>
            </WhenAllowed>
            <button type="button" onClick={() => props.leave()}>
              Leave it
            </button>
          </div>
        }
      >
        {(sentence) => <p role="status">{sentence()}</p>}
      </Show>
    </form>
  )
}

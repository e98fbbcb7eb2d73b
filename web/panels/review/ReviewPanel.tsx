import { createSignal, For, Show } from 'solid-js'
import { causeMeans } from '#domain/review/cause.ts'
import type { EvidencePicture } from '#domain/review/evidence.ts'
import { mostOdd } from '#domain/review/odd-reading.ts'
import type { Oddity } from '#domain/review/oddity.ts'
import { envelopeSentence, noPrediction, standingOf } from '#domain/review/rules/works-prediction.ts'
import { decibansText } from '#domain/review/wording.ts'
import { weighedEvidence } from '#domain/site/verdict-evidence.ts'
import { reviewDays, reviewedSeries } from '../../state/reviewed-series.ts'
import { openSheet } from '../../state/sheet.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { sync } from '../../ui/sync.ts'
import type { HistoryStretch } from '../../views/time-history/history-props.ts'
import { createNetworkDocument } from '../network/create-network-document.ts'
import { VerdictForm } from '../VerdictForm.tsx'
import { VerdictList } from '../VerdictList.tsx'
import { createReview, stretchAtClock } from './create-review.ts'
import { createSingle } from './create-single.ts'
import { EvidenceLines } from './EvidenceLines.tsx'
import { EvidencePictureShown } from './EvidencePictureShown.tsx'
import { KnownHistory } from './KnownHistory.tsx'
import { LessData } from './LessData.tsx'
import { ReviewAsked } from './ReviewAsked.tsx'
import { RulesExplained } from './RulesExplained.tsx'
import { SingleChoice } from './SingleChoice.tsx'
import { VerdictsAgain } from './VerdictsAgain.tsx'
import './review.css'

/** Where an odd reading is judged: what speaks for and against each cause, what is missing, and the way to a verdict. */
export function ReviewPanel() {
  const [oddity, setOddity] = createSignal<Oddity | null>(null)
  const [picture, setPicture] = createSignal<EvidencePicture | null>(null)
  const [entering, setEntering] = createSignal(false)
  const series = reviewedSeries
  const single = createSingle()
  const [choosing, setChoosing] = createSignal(false)
  const review = createReview(
    series,
    () => stretchAtClock(reviewDays()),
    oddity,
    createNetworkDocument(),
    single.asked,
  )
  const chooseReading = (atEpochMs: number | null) => {
    const [reviewed, subject] = [review.reviewed(), series()]
    setChoosing(false)
    setOddity(atEpochMs === null ? null : 'reading')
    if (atEpochMs === null || !reviewed || !subject) return single.forget()
    const at = reviewed.subject.atEpochMs.indexOf(atEpochMs)
    single.choose(subject, atEpochMs, reviewed.subject.atEpochMs[at - 1] ?? null)
  }
  /** Of the readings within a stretch the one that stands off most. */
  const chooseWithin = ({ fromEpochMs, untilEpochMs }: HistoryStretch) => {
    const reviewed = review.reviewed()
    const within = reviewed
      ? mostOdd(reviewed.subject, reviewed.resolution ?? 0, Number.POSITIVE_INFINITY, 0).find(
          ({ atEpochMs }) => fromEpochMs <= atEpochMs && atEpochMs < untilEpochMs,
        )
      : undefined
    if (within) chooseReading(within.atEpochMs)
    else setChoosing(false)
  }
  const framed = () => {
    const [chosen, subject] = [single.asked(), series()]
    if (!chosen || !subject) return null
    const halfMs = subject.intervalMinutes * 30_000
    return { fromEpochMs: chosen.atEpochMs - halfMs, untilEpochMs: chosen.atEpochMs + halfMs }
  }
  sync(
    () => series()?.id,
    () => {
      setPicture(null)
      setOddity(null)
      setEntering(false)
      setChoosing(false)
      single.forget()
    },
  )
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  /** Of a verdict that is about one reading: its minute. */
  const oneReading = () => {
    const [chosen, shown] = [single.asked(), review.shown()]
    return chosen && shown?.oddity === 'reading'
      ? { fromEpochMs: chosen.atEpochMs, untilEpochMs: chosen.atEpochMs + 60_000 }
      : null
  }
  const expectedSentence = () => {
    const reviewed = review.reviewed()
    const expected = reviewed?.expected
    if (!reviewed || !expected) return ''
    const standing = standingOf(reviewed, expected)
    return `Against the design: ${standing ? envelopeSentence(reviewed, standing) : noPrediction(expected)}`
  }
  const [less, setLess] = createSignal(false)
  const [all, setAll] = createSignal(false)
  const evidence = () => {
    const [table, over] = [review.table(), review.stretch()]
    return table && over
      ? weighedEvidence(table, { fromEpochMs: over.fromEpochMs, untilEpochMs: over.asOfEpochMs })
      : null
  }
  return (
    <div class="review">
      <Show
        when={series()}
        fallback={<p class="waiting">Select an instrument or a point whose readings are to be reviewed.</p>}
      >
        {(subject) => (
          <>
            <ReviewAsked />
            <Show when={review.stretch()}>
              {(over) => (
                <p class="review-known">
                  As it was known at {formatShortInstant(over().asOfEpochMs, zone())}: readings received later
                  are left out.
                </p>
              )}
            </Show>
            <For each={review.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
            <Show
              when={review.table()}
              fallback={
                <p class="waiting">
                  {review.waiting() ? 'Weighing the evidence …' : 'Nothing could be weighed.'}
                </p>
              }
            >
              {(table) => (
                <>
                  <fieldset class="chips" aria-label="What is odd">
                    <For each={review.oddities()}>
                      {(found) => (
                        <button
                          type="button"
                          aria-pressed={review.shown()?.oddity === found.oddity}
                          onClick={() => setOddity(found.oddity)}
                        >
                          {oddityNames[found.oddity]}
                        </button>
                      )}
                    </For>
                  </fieldset>
                  <p>{review.shown()?.sentence}</p>
                  <p class="review-finding" role="status">
                    <Show when={review.remarks().length > 0}>
                      Not everything could be looked at, as told above: what seems missing may only be missing
                      here.{' '}
                    </Show>
                    {table().sentence}
                  </p>
                </>
              )}
            </Show>
            <Show when={review.stretch()}>
              {(over) => (
                <details class="record-more" open>
                  <summary>Readings as they had been received at the clock</summary>
                  <KnownHistory
                    series={subject()}
                    stretch={over()}
                    choosing={choosing()}
                    chosen={chooseWithin}
                    framed={framed()}
                  />
                  <Show when={review.reviewed()}>
                    {(reviewed) => (
                      <SingleChoice
                        reviewed={reviewed()}
                        chosenEpochMs={single.asked()?.atEpochMs ?? null}
                        choosing={choosing()}
                        setChoosing={setChoosing}
                        choose={chooseReading}
                      />
                    )}
                  </Show>
                  <Show when={single.trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
                </details>
              )}
            </Show>
            <Show when={review.table()}>
              {(table) => (
                <>
                  <p>{expectedSentence()}</p>
                  <For each={table().ranked}>
                    {(ranked) => (
                      <section class="review-cause" aria-label={ranked.cause}>
                        <h3>
                          {ranked.cause} <small>{decibansText(ranked.decibans)}</small>
                        </h3>
                        <p class="review-means">{causeMeans[ranked.cause]}.</p>
                        <EvidenceLines evidence={ranked.evidence} show={setPicture} shown={picture()} />
                      </section>
                    )}
                  </For>
                  <Show when={picture()} keyed>
                    {(shown) => <EvidencePictureShown picture={shown} leave={() => setPicture(null)} />}
                  </Show>
                  <details class="record-more" onToggle={(event) => setLess(event.currentTarget.open)}>
                    <summary>With less data</summary>
                    <Show when={less()}>
                      <LessData series={subject()} days={reviewDays()} oddity={table().oddity} now={review} />
                    </Show>
                  </details>
                  <RulesExplained oddity={table().oddity} />
                </>
              )}
            </Show>
            <div class="buttons">
              <button type="button" onClick={() => openSheet('what-if')}>
                Try another calibration, zero, lead or clock in the sandbox
              </button>
            </div>
            <section aria-label="Verdict">
              <h3>Verdict</h3>
              <p>
                This ranks and explains; a person decides, with the responsible engineer. A verdict hides no
                reading and lowers no level.
              </p>
              <VerdictList series={subject().id} />
              <h3>Verdicts to look at again</h3>
              <p>
                Each verdict is held against what is known at the clock. What speaks against it is told; a
                person reopens it or upholds it.
              </p>
              <VerdictsAgain series={subject().id} />
              <details onToggle={(event) => setAll(event.currentTarget.open)}>
                <summary>All verdicts of the site</summary>
                <Show when={all()}>
                  <VerdictsAgain />
                </Show>
              </details>
              <Show
                when={entering()}
                fallback={
                  <div class="buttons">
                    <button type="button" onClick={() => setEntering(true)}>
                      Enter a verdict
                    </button>
                  </div>
                }
              >
                <VerdictForm
                  series={[subject()]}
                  evidence={evidence()}
                  dragged={oneReading()}
                  saved={() => setEntering(false)}
                  leave={() => setEntering(false)}
                />
              </Show>
            </section>
          </>
        )}
      </Show>
    </div>
  )
}

const oddityNames: Readonly<Record<Oddity, string>> = {
  value: 'What was read',
  silence: 'What is missing',
  time: 'When it was read',
  reading: 'One reading',
}

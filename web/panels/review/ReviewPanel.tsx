import { createSignal, For, Show } from 'solid-js'
import type { Oddity } from '#domain/review/oddity.ts'
import { envelopeSentence, noPrediction, standingOf } from '#domain/review/rules/works-prediction.ts'
import { weighedEvidence } from '#domain/site/verdict-evidence.ts'
import { reviewDays, reviewedSeries } from '../../state/reviewed-series.ts'
import { openSheet } from '../../state/sheet.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { createNetworkDocument } from '../network/create-network-document.ts'
import { CausesRanked } from './CausesRanked.tsx'
import { ContradictedVerdicts } from './ContradictedVerdicts.tsx'
import { createAskedReading } from './create-asked-reading.ts'
import { createReview, stretchAtClock } from './create-review.ts'
import { LessData } from './LessData.tsx'
import { ReadingsKnown } from './ReadingsKnown.tsx'
import { ReviewAsked } from './ReviewAsked.tsx'
import { RulesExplained } from './RulesExplained.tsx'
import { VerdictPart } from './VerdictPart.tsx'
import './review.css'

/** Where an odd reading is judged: what speaks for and against each cause, what is missing, and the way to a verdict. */
export function ReviewPanel() {
  const series = reviewedSeries
  const asked = createAskedReading()
  const review = createReview(
    series,
    () => stretchAtClock(reviewDays()),
    asked.oddity,
    createNetworkDocument(),
    asked.single,
  )
  asked.follow(review.reviewed)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const oneReading = () => {
    const [chosen, shown] = [asked.single(), review.shown()]
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
        fallback={
          <>
            <p class="waiting">Select an instrument or a point whose readings are to be reviewed.</p>
            <ContradictedVerdicts />
          </>
        }
      >
        {(subject) => (
          <>
            <ReviewAsked />
            <Show when={review.stretch()}>
              {(over) => (
                <p class="review-known">
                  As it was known at {formatInstant(over().asOfEpochMs, zone())}: readings received later are
                  left out.
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
                          onClick={() => asked.askOddity(found.oddity)}
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
                  <div class="buttons">
                    <button type="button" onClick={toVerdict}>
                      Go to the verdict
                    </button>
                    <button type="button" onClick={() => openSheet('what-if')}>
                      Try another calibration, zero, lead or clock
                    </button>
                  </div>
                </>
              )}
            </Show>
            <ReadingsKnown series={subject()} review={review} asked={asked} />
            <Show when={review.table()}>
              {(table) => (
                <>
                  <p>{expectedSentence()}</p>
                  <CausesRanked table={table()} />
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
            <VerdictPart series={subject()} evidence={evidence()} oneReading={oneReading()} />
          </>
        )}
      </Show>
    </div>
  )
}

function toVerdict(): void {
  const part = document.getElementById('review-verdict')
  part?.scrollIntoView()
  part?.focus({ preventScroll: true })
}

const oddityNames: Readonly<Record<Oddity, string>> = {
  value: 'What was read',
  silence: 'What is missing',
  time: 'When it was read',
  reading: 'One reading',
}

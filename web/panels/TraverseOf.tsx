import { createMemo, createSignal, For, Show } from 'solid-js'
import type { PlacedInstrument } from '#contract/site-document.ts'
import type { TraverseCorrectionList } from '#contract/traverse-correction.ts'
import { reviewTraverse, type TraverseReview } from '#domain/reduction/review-traverse.ts'
import type { TraverseFault } from '#domain/reduction/traverse-faults.ts'
import { traverseFigures } from '../derived/figures/traverse-figure.ts'
import {
  casingFaces,
  seriesOfFaces,
  surveysOf,
  type TraverseAxis,
  type TraverseSurvey,
} from '../derived/traverse-surveys.ts'
import { surveysWithinDays, traverseSurveys } from '../queries/traverse-surveys.ts'
import { slicesRevision } from '../state/analysis.ts'
import { askServer } from '../state/ask-server.ts'
import { sitePath } from '../state/open-site.ts'
import { clockEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { formatValue } from '../ui/format-value.ts'
import { sync } from '../ui/sync.ts'
import { Figure } from '../views/figure/Figure.tsx'
import { createAnswer } from './create-answer.ts'
import { TraverseCorrectionForm } from './TraverseCorrectionForm.tsx'
import { checksumSentence, faultNames, faultSentence, faultSize } from './traverse-sentences.ts'
import './traverse.css'

/** The surveys of a traversed casing: what their faces say of each other, of the still ground, and a correction. */
export function TraverseOf(props: { instrument: PlacedInstrument }) {
  const [axis, setAxis] = createSignal<TraverseAxis>('a')
  const [chosenAt, setChosenAt] = createSignal<number | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const faces = createMemo(() => {
    const document = siteDocument()
    const at = clockEpochMs()
    return document && at !== null ? casingFaces(document, props.instrument, axis(), at) : null
  })
  const asked = createAnswer(() => {
    const known = faces()
    const at = clockEpochMs()
    return known && at !== null ? traverseSurveys({ atEpochMs: at, series: seriesOfFaces(known) }) : null
  })
  const surveys = createMemo((): readonly TraverseSurvey[] => {
    const known = faces()
    const answer = asked.answer()
    return known && answer ? surveysOf(known, answer.columns) : []
  })
  // Asked with each revision of the slices and not later: a correction is drafted from what the surveys were then.
  const [entered, setEntered] = createSignal<TraverseCorrectionList | null>(null)
  sync(
    () => {
      slicesRevision()
      const question = new URLSearchParams({ instrument: props.instrument.id, axis: axis() })
      return sitePath(siteDocument()?.facts.id ?? '', `/traverse-corrections?${question}`)
    },
    (path) => {
      setEntered(null)
      askServer<TraverseCorrectionList>(path).then(setEntered, () => setEntered(null))
    },
  )
  const chosen = () => surveys().find(({ atEpochMs }) => atEpochMs === chosenAt()) ?? surveys()[0] ?? null
  const review = (survey: TraverseSurvey): TraverseReview | null => {
    const known = faces()
    return known && reviewTraverse(known.casing, survey.faces, survey.cross)
  }
  return (
    <section class="traverse" aria-label="Surveys of the casing">
      <h3>Surveys of the casing</h3>
      <fieldset class="buttons" aria-label="Axis">
        <For each={['a', 'b'] as const}>
          {(one) => (
            <button type="button" aria-pressed={axis() === one} onClick={() => setAxis(one)}>
              {one.toUpperCase()} axis
            </button>
          )}
        </For>
      </fieldset>
      <For each={asked.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <Show when={faces()} fallback={<p class="waiting">It has no faces along this axis.</p>}>
        <Show
          when={surveys().length > 0}
          fallback={
            <p class="waiting">
              {asked.waiting()
                ? 'Looking for surveys …'
                : `No survey was read in the ${surveysWithinDays} days before the site clock.`}
            </p>
          }
        >
          <section class="scroll-across surveys" aria-label="Surveys, scrolls" tabindex="0">
            <table class="plain">
              <caption>
                Surveys in the {surveysWithinDays} days before the site clock, newest first, mm. A mean
                checksum that jumps is the probe; scatter is the survey.
              </caption>
              <thead>
                <tr>
                  <th scope="col">Survey</th>
                  <th scope="col">Mean checksum</th>
                  <th scope="col">Scatter</th>
                  <th scope="col">Greatest deflection</th>
                </tr>
              </thead>
              <tbody>
                <For each={surveys()}>
                  {(survey) => {
                    const seen = review(survey)
                    return (
                      <tr>
                        <th scope="row">
                          <button
                            type="button"
                            aria-pressed={chosen()?.atEpochMs === survey.atEpochMs}
                            onClick={() => setChosenAt(survey.atEpochMs)}
                          >
                            {formatShortInstant(survey.atEpochMs, zone())}
                          </button>
                        </th>
                        <td>{formatValue(seen?.checksum?.mean ?? null, 2)}</td>
                        <td>{formatValue(seen?.checksum?.standardDeviation ?? null, 2)}</td>
                        <td>{formatValue(seen?.greatestDeflectionMm ?? null, 1)}</td>
                      </tr>
                    )
                  }}
                </For>
              </tbody>
            </table>
          </section>
        </Show>
      </Show>
      <Show when={chosen()} keyed>
        {(survey) => (
          <Show when={review(survey)} keyed>
            {(seen) => (
              <SurveyReview
                instrument={props.instrument}
                axis={axis()}
                survey={survey}
                review={seen}
                entered={entered()}
              />
            )}
          </Show>
        )}
      </Show>
    </section>
  )
}

/** One survey looked at: its drawing, the faults its still intervals would be explained by, and a correction. */
function SurveyReview(props: {
  instrument: PlacedInstrument
  axis: TraverseAxis
  survey: TraverseSurvey
  review: TraverseReview
  entered: TraverseCorrectionList | null
}) {
  const [looked, setLooked] = createSignal<TraverseFault | null>(null)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const fixedEnd = () => {
    const { fixedEnd: end } = props.instrument
    return end === 'toe' || end === 'head' ? end : null
  }
  const stillBelow = () => props.instrument.stillBelowMetres ?? null
  const figures = createMemo(() => {
    const fault = looked()
    return traverseFigures(props.review, {
      title: `${props.instrument.id}, ${props.axis.toUpperCase()}, ${formatShortInstant(props.survey.atEpochMs, zone())}`,
      fixedEnd: fixedEnd(),
      stillBelowMetres: stillBelow(),
      taken: fault && {
        name: faultNames[fault.kind].toLowerCase(),
        perIntervalMm: fault.perIntervalMm,
      },
      timeZone: zone(),
    })
  })
  return (
    <section aria-label={`Survey of ${formatShortInstant(props.survey.atEpochMs, zone())}`}>
      <p>{checksumSentence(props.review.checksum)}</p>
      <div class="traverse-figures">
        <Figure shown={() => figures()[0]} onChoose={() => {}} />
        <Figure shown={() => figures()[1]} onChoose={() => {}} />
      </div>
      <h4>What the still intervals show</h4>
      <For each={props.review.notTold}>{(sentence) => <p>{sentence}</p>}</For>
      <Show when={props.review.faults.length > 0}>
        <p class="trouble">
          Each fault is told as if it were the only one. A fault that is not there, taken off, hides a
          movement; one that is there makes a movement that is none. The engineer responsible decides.
        </p>
        <ul class="traverse-faults">
          <For each={props.review.faults}>
            {(fault) => (
              <li>
                <strong>
                  {faultNames[fault.kind]}: {faultSize(fault)}
                </strong>
                <p>{faultSentence(fault)}</p>
                <button
                  type="button"
                  aria-pressed={looked()?.kind === fault.kind}
                  onClick={() => setLooked(looked()?.kind === fault.kind ? null : fault)}
                >
                  Look at it taken off
                </button>
              </li>
            )}
          </For>
        </ul>
      </Show>
      <Show when={looked()} keyed>
        {(fault) => (
          <TraverseCorrectionForm
            instrument={props.instrument}
            axis={props.axis}
            atEpochMs={props.survey.atEpochMs}
            review={props.review}
            fault={fault}
            entered={props.entered}
            leave={() => setLooked(null)}
          />
        )}
      </Show>
    </section>
  )
}

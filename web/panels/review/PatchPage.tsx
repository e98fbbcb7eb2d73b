import { createMemo, createSignal, For, Show } from 'solid-js'
import { placesOf } from '#domain/review/case/places-of.ts'
import { measuresOf, seriesInPatch } from '../../derived/review/series-in-patch.ts'
import { analysis, slicesRevision } from '../../state/analysis.ts'
import { patch, patchRadii, takePatch } from '../../state/patch.ts'
import { planTool, takePlanTool } from '../../state/plan-tool.ts'
import { reviewedSeries, reviewStretch } from '../../state/reviewed-series.ts'
import { siteDocument } from '../../state/site-document.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { sync } from '../../ui/sync.ts'
import { createNetworkDocument } from '../network/create-network-document.ts'
import { createPatchReview, emptyPatchSentence, type PatchProgress } from './create-patch-review.ts'
import { PatchEvidenceTable } from './PatchEvidenceTable.tsx'
import { PatchMovementShown } from './PatchMovementShown.tsx'
import { ReviewAsked } from './ReviewAsked.tsx'

/** So many series are reviewed without being asked: about a second. */
const mostUnasked = 30

/** All series of a quantity in a patch of plan: what they share, what each does by itself, and what bears it. */
export function PatchPage() {
  const [chosenMeasure, setChosenMeasure] = createSignal<string | null>(null)
  const network = createNetworkDocument()
  const review = createPatchReview()
  const middle = createMemo(() => {
    const document = siteDocument()
    return (document && placesOf(document).get(reviewedSeries()?.point ?? '')) ?? null
  })
  const hasPlace = () => patch().kind === 'area' || middle() !== null
  const within = createMemo(() => {
    const [document, stretch] = [siteDocument(), reviewStretch()]
    return document && stretch ? seriesInPatch(document, patch(), middle(), stretch.asOfEpochMs) : []
  })
  const measures = createMemo(() => measuresOf(within()))
  const measure = () =>
    measures().find((one) => one.measure === (chosenMeasure() ?? reviewedSeries()?.measure))?.measure ??
    measures()[0]?.measure ??
    null
  const subjects = createMemo(() => within().filter((one) => one.measure === measure()), [], {
    equals: (left, right) => left.map(({ id }) => id).join() === right.map(({ id }) => id).join(),
  })
  const wanted = () => {
    const stretch = reviewStretch()
    return stretch && !network.waiting() && analysis() && subjects().length > 0
      ? { subjects: subjects(), network: network.document(), ...stretch }
      : null
  }
  sync(
    () => {
      slicesRevision()
      return wanted()
    },
    (asked) => {
      review.forget()
      if (asked && asked.subjects.length <= mostUnasked) void review.run(asked)
    },
  )
  const empty = () => emptyPatchSentence(siteDocument(), within(), hasPlace())
  return (
    <div class="review">
      <fieldset class="chips" aria-label="Which patch of the plan">
        <For each={patchRadii}>
          {(radiusMetres) => (
            <button
              type="button"
              aria-pressed={isAround(radiusMetres)}
              onClick={() => takePatch({ kind: 'around', radiusMetres })}
            >
              {radiusMetres} m around {reviewedSeries()?.point ?? 'what is selected'}
            </button>
          )}
        </For>
        <button
          type="button"
          aria-pressed={planTool() === 'patch' || patch().kind === 'area'}
          onClick={() => takePlanTool(planTool() === 'patch' ? null : 'patch')}
        >
          Draw an area
        </button>
      </fieldset>
      <div class="review-asked">
        <Show when={measures().length > 0}>
          <label>
            Quantity
            <select onInput={(event) => setChosenMeasure(event.currentTarget.value)}>
              <For each={measures()}>
                {(one) => (
                  <option value={one.measure} selected={one.measure === measure()}>
                    {measureNames[one.measure]}, {one.count} series
                  </option>
                )}
              </For>
            </select>
          </label>
        </Show>
        <ReviewAsked daysOnly />
      </div>
      <Show when={empty()}>{(sentence) => <p class="waiting">{sentence()}</p>}</Show>
      <Show when={network.trouble()}>{(sentence) => <p class="waiting">{sentence()}</p>}</Show>
      <Show when={review.trouble()}>{(sentence) => <p class="review-finding">{sentence()}</p>}</Show>
      <Show when={review.progress()}>
        {(now) => (
          <p class="waiting" role="status">
            {progressText(now())} …{' '}
            <button type="button" onClick={review.stop}>
              Stop
            </button>
          </p>
        )}
      </Show>
      <Show when={!review.found() && !review.progress() && wanted()}>
        {(asked) => (
          <div class="buttons">
            <button type="button" onClick={() => void review.run(asked())}>
              Review all {asked().subjects.length} series
            </button>
          </div>
        )}
      </Show>
      <Show when={review.found()}>
        {(found) => (
          <>
            <For each={found().remarks}>{(remark) => <p class="waiting">{remark}</p>}</For>
            <PatchEvidenceTable evidence={found().evidence} />
            <PatchMovementShown found={found()} />
          </>
        )}
      </Show>
    </div>
  )
}

function progressText({ stage, done, of }: PatchProgress): string {
  if (stage === 'asked') return `Readings of ${of} series and of what is beside them are asked for`
  return stage === 'reviewed'
    ? `${done} of ${of} series reviewed`
    : `${done} of ${of} series held against the others`
}

function isAround(radiusMetres: number): boolean {
  const now = patch()
  return now.kind === 'around' && now.radiusMetres === radiusMetres
}

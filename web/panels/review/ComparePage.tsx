import { createMemo, createSignal, For, Show } from 'solid-js'
import { compareSeries } from '#domain/review/compare-series.ts'
import { comparedTraces } from '../../derived/review/compared-traces.ts'
import { knownHours } from '../../queries/review-readings.ts'
import { comparedSeries } from '../../state/compared.ts'
import { reviewStretch } from '../../state/reviewed-series.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { createAnswer } from '../create-answer.ts'
import { ComparedHistories } from './ComparedHistories.tsx'
import { ComparedList } from './ComparedList.tsx'
import { ComparedTable } from './ComparedTable.tsx'
import { CrossPlotFigure } from './CrossPlotFigure.tsx'
import { ReviewAsked } from './ReviewAsked.tsx'

const dayMs = 86_400_000
const lengths = [
  { ms: dayMs, name: 'a day' },
  { ms: 7 * dayMs, name: 'a week' },
] as const

/** Any series beside each other: histories on one axis of time, how they go together, one against another. */
export function ComparePage() {
  const [differenceMs, setDifferenceMs] = createSignal<number>(dayMs)
  const hours = createAnswer(() => {
    const [stretch, series] = [reviewStretch(), comparedSeries()]
    return stretch && series.length > 0
      ? knownHours({ ...stretch, series: series.map((one) => one.series).sort((one, other) => one - other) })
      : null
  })
  const rows = createMemo(() => {
    const [document, stretch, answered] = [siteDocument(), reviewStretch(), hours.answer()]
    if (!document || !stretch || !answered || hours.waiting()) return null
    const traces = comparedTraces(document, comparedSeries(), answered.columns, stretch)
    return compareSeries(traces[0] ?? null, traces, {
      fromEpochMs: stretch.fromEpochMs,
      untilEpochMs: stretch.asOfEpochMs,
      differenceMs: differenceMs(),
    })
  })
  return (
    <div class="review">
      <ComparedList />
      <Show when={comparedSeries().length > 0}>
        <ReviewAsked daysOnly />
        <Show when={reviewStretch()}>
          {(over) => (
            <p class="review-known">
              Figures below and the plot of one against another: as known at{' '}
              {formatInstant(over().asOfEpochMs, siteDocument()?.facts.timeZone ?? 'UTC')}. Histories are
              drawn with what was received later.
            </p>
          )}
        </Show>
        <ComparedHistories />
        <fieldset class="chips" aria-label="Changes that are held against each other">
          <For each={lengths}>
            {({ ms, name }) => (
              <button type="button" aria-pressed={differenceMs() === ms} onClick={() => setDifferenceMs(ms)}>
                Changes over {name}
              </button>
            )}
          </For>
        </fieldset>
        <For each={hours.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
        <Show when={rows()} fallback={<p class="waiting">Series are being held against each other …</p>}>
          {(found) => <ComparedTable rows={found()} />}
        </Show>
        <Show when={comparedSeries().length > 1}>
          <CrossPlotFigure />
        </Show>
      </Show>
    </div>
  )
}

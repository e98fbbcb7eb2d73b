import { createMemo, createSignal, Show } from 'solid-js'
import { asChangeSince, inOwnPanes } from '../../derived/review/compared-history.ts'
import { timeHistory } from '../../queries/time-history.ts'
import { changeFromEpochMs, countChangeFrom } from '../../state/change-since.ts'
import { comparedSeries } from '../../state/compared.ts'
import { reviewStretch } from '../../state/reviewed-series.ts'
import { clockEpochMs, scrubTo, spanEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { createWidth } from '../../ui/create-width.ts'
import { formatShortInstant, fromLocalField, toLocalField } from '../../ui/format-instant.ts'
import {
  historyDiary,
  historySeries,
  historyStages,
  historyTraces,
} from '../../views/time-history/history-from-site.ts'
import type { TimeHistoryProps } from '../../views/time-history/history-props.ts'
import { TimeHistory } from '../../views/time-history/TimeHistory.tsx'
import { createAnswer } from '../create-answer.ts'

/** Histories of the series compared on one axis of time: each in its own pane, or as change since an instant. */
export function ComparedHistories() {
  const [width, measure] = createWidth(700)
  const [asChange, setAsChange] = createSignal(false)
  const [window, setWindow] = createSignal<readonly [from: number, until: number] | null>(null)
  const shownWindow = createMemo((): readonly [number, number] => {
    const stretch = reviewStretch()
    return window() ?? [stretch?.fromEpochMs ?? 0, stretch?.asOfEpochMs ?? 1]
  })
  const sinceEpochMs = () => changeFromEpochMs() ?? reviewStretch()?.fromEpochMs ?? 0
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const asked = createAnswer(() => {
    const series = comparedSeries()
    const [fromEpochMs, untilEpochMs] = shownWindow()
    if (series.length === 0 || untilEpochMs <= fromEpochMs) return null
    return timeHistory({
      // What a change counts from may lie before the window.
      fromEpochMs: asChange() ? Math.min(fromEpochMs, sinceEpochMs()) : fromEpochMs,
      untilEpochMs,
      widthPixels: Math.ceil(width() / 100) * 100,
      intervalMinutes: Math.min(...series.map(({ intervalMinutes }) => intervalMinutes)),
      series: series.map((one) => one.series),
    })
  })
  const drawn = createMemo(() => {
    const [document, answered] = [siteDocument(), asked.answer()]
    if (!document) return { series: [], traces: [], remarks: [] }
    const series = comparedSeries().map((one) => historySeries(document, one))
    const traces = answered ? historyTraces(answered.columns, answered.question.resolution) : []
    return asChange()
      ? asChangeSince(series, traces, sinceEpochMs(), (at) => formatShortInstant(at, zone()))
      : inOwnPanes(series, traces)
  })
  const panes = () =>
    asChange() ? new Set(drawn().series.map(({ unit }) => unit)).size : drawn().series.length
  const shown = (): TimeHistoryProps => {
    const document = siteDocument()
    const [fromEpochMs, untilEpochMs] = shownWindow()
    const { fromEpochMs: first, untilEpochMs: last } = spanEpochMs()
    return {
      fromEpochMs,
      untilEpochMs,
      clockEpochMs: clockEpochMs(),
      spanEpochMs: [first, last],
      timeZone: zone(),
      companions: [],
      holds: [],
      series: drawn().series,
      traces: drawn().traces,
      stages: document ? historyStages(document) : [],
      diary: document ? historyDiary(document) : [],
      remarks: [...asked.remarks(), ...drawn().remarks],
      waiting: asked.waiting(),
    }
  }
  return (
    <section aria-label="Histories" ref={measure} class="compared-histories">
      <div class="review-asked">
        <fieldset class="chips" aria-label="How histories are drawn">
          <button type="button" aria-pressed={!asChange()} onClick={() => setAsChange(false)}>
            Each in its own pane
          </button>
          <button type="button" aria-pressed={asChange()} onClick={() => setAsChange(true)}>
            As change since
          </button>
        </fieldset>
        <Show when={asChange()}>
          <label>
            Change counts from
            <input
              type="datetime-local"
              value={toLocalField(sinceEpochMs(), zone())}
              onChange={(event) => countChangeFrom(fromLocalField(event.currentTarget.value, zone()))}
            />
          </label>
        </Show>
      </div>
      <div class="compared-drawing" style={{ '--panes': String(Math.max(2, panes())) }}>
        <TimeHistory
          shown={shown}
          onClock={scrubTo}
          onWindow={(fromEpochMs, untilEpochMs) => setWindow([fromEpochMs, untilEpochMs])}
        />
      </div>
    </section>
  )
}

import { createMemo, createSignal, Show } from 'solid-js'
import { asMeasured } from '../../../panels/as-measured.ts'
import { createAnswer } from '../../../panels/create-answer.ts'
import { timeHistory } from '../../../queries/time-history.ts'
import { selectedSeries } from '../../../state/selection.ts'
import { clockEpochMs, scrubTo, spanEpochMs } from '../../../state/site-clock.ts'
import { siteDocument } from '../../../state/site-document.ts'
import { createWidth } from '../../../ui/create-width.ts'
import {
  historyDiary,
  historyHolds,
  historySeries,
  historyStages,
  historyTraces,
} from '../../../views/time-history/history-from-site.ts'
import type { TimeHistoryProps } from '../../../views/time-history/history-props.ts'
import { historyJoined, joinedSeries } from '../../../views/time-history/joined-history.ts'
import { TimeHistory } from '../../../views/time-history/TimeHistory.tsx'
import { Nothing } from './Nothing.tsx'
import { standsAtClock } from './stands-at-clock.ts'

/** More lines cannot be told apart from five metres. */
const mostSeries = 4

/** Readings over time of what the board keeps, with levels and stages, up to the cut-off. */
export function HistoryBoard() {
  const [width, measure] = createWidth(1200)
  const [window, setWindow] = createSignal<readonly [from: number, until: number] | null>(null)
  const shownWindow = () => window() ?? ([spanEpochMs().fromEpochMs, spanEpochMs().untilEpochMs] as const)
  // A point that is its whole instrument is told of twice.
  const drawable = () => [...new Set(selectedSeries())]
  const series = createMemo(() => {
    const all = drawable()
    const whole = all.filter((one) => one.point === one.id.split('/')[0] && all.length > mostSeries)
    return all.length > mostSeries && whole.length > 0 ? whole.slice(0, mostSeries) : all.slice(0, mostSeries)
  })
  const earlier = createMemo(() => {
    const document = siteDocument()
    return document ? series().flatMap((one) => joinedSeries(document, one)) : []
  })
  const asked = createAnswer(() => {
    const wanted = [...series(), ...earlier().filter((one) => !series().includes(one))]
    const [fromEpochMs, untilEpochMs] = shownWindow()
    if (series().length === 0 || untilEpochMs <= fromEpochMs) return null
    return timeHistory({
      fromEpochMs,
      untilEpochMs,
      widthPixels: Math.ceil(width() / 100) * 100,
      intervalMinutes: Math.min(...wanted.map((one) => one.intervalMinutes)),
      series: wanted.map((one) => one.series),
    })
  })
  const shown = (): TimeHistoryProps => {
    const document = siteDocument()
    const [fromEpochMs, untilEpochMs] = shownWindow()
    const { fromEpochMs: first, untilEpochMs: last } = spanEpochMs()
    const answered = asked.answer()
    const left = drawable().length - series().length
    return {
      fromEpochMs,
      untilEpochMs,
      clockEpochMs: clockEpochMs(),
      spanEpochMs: [first, last],
      timeZone: document?.facts.timeZone ?? 'UTC',
      series: document
        ? series().map((one) => ({
            ...historySeries(document, one),
            joined: historyJoined(document, one),
          }))
        : [],
      companions: [],
      traces: answered ? historyTraces(answered.columns, answered.question.resolution) : [],
      holds: document ? historyHolds(document, series()) : [],
      stages: document ? historyStages(document) : [],
      diary: document ? historyDiary(document) : [],
      // As one: a board has room for few remarks, and what lines and bands mean comes next.
      remarks: [
        [
          ...standsAtClock(),
          ...asMeasured(),
          ...(left > 0 ? [`${left} further series of it are not drawn here.`] : []),
        ].join(' '),
        ...asked.remarks(),
      ].filter((sentence) => sentence !== ''),
      waiting: asked.waiting(),
    }
  }
  return (
    <Show
      when={series().length > 0}
      fallback={
        <Nothing
          missing="No measuring point is kept with this board."
          concluded="No readings are drawn, and nothing can be concluded of any movement."
        />
      }
    >
      <div class="board-view" ref={measure}>
        <TimeHistory
          shown={shown}
          onClock={scrubTo}
          onWindow={(fromEpochMs, untilEpochMs) => setWindow([fromEpochMs, untilEpochMs])}
        />
      </div>
    </Show>
  )
}

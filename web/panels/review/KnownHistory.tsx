import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Series } from '#contract/site-document.ts'
import type { ReviewStretch } from '#domain/review/verdict-again.ts'
import { knownHistory, lateArrivals } from '../../queries/known-history.ts'
import { clockEpochMs, scrubTo } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { createWidth } from '../../ui/create-width.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import {
  historyDiary,
  historySeries,
  historyStages,
  historyTraces,
  knownTraces,
} from '../../views/time-history/history-from-site.ts'
import type { HistoryStretch, TimeHistoryProps } from '../../views/time-history/history-props.ts'
import { TimeHistory } from '../../views/time-history/TimeHistory.tsx'
import { createAnswer } from '../create-answer.ts'
import { type Arrival, arrivalsAround } from './arrivals.ts'

/**
 * Readings of the reviewed series as they had been received at the clock, what came later drawn apart; the clock steps
 * from one late arrival to the next, and each step shows what was there then.
 */
export function KnownHistory(props: {
  series: Series
  stretch: ReviewStretch
  /** True while dragging chooses a stretch. */
  choosing?: boolean
  chosen?: (stretch: HistoryStretch) => void
  /** Framed in the drawing. */
  framed?: HistoryStretch | null
}) {
  const [width, measure] = createWidth(700)
  const [withLater, setWithLater] = createSignal(false)
  const [window, setWindow] = createSignal<readonly [from: number, until: number] | null>(null)
  const whole = () => [props.stretch.fromEpochMs, clockEpochMs() ?? props.stretch.asOfEpochMs] as const
  const shownWindow = () => window() ?? whole()
  const asked = createAnswer(() => {
    const [fromEpochMs, untilEpochMs] = shownWindow()
    const known = clockEpochMs()
    if (known === null || untilEpochMs <= fromEpochMs) return null
    return knownHistory({
      fromEpochMs,
      // What was taken at the clock is of it.
      untilEpochMs: untilEpochMs + 1,
      widthPixels: Math.ceil(width() / 100) * 100,
      intervalMinutes: props.series.intervalMinutes,
      series: [props.series.series],
      // With what came later nothing is parted: all of it has come by the end of time.
      knownAtEpochMs: withLater() ? endOfTimeEpochMs : known,
    })
  })
  const arrived = createAnswer(() => {
    const [fromEpochMs, untilEpochMs] = whole()
    return lateArrivals({ series: props.series.series, fromEpochMs, untilEpochMs })
  })
  const arrivals = createMemo(() => {
    const [answer, at] = [arrived.answer(), clockEpochMs()]
    return answer && at !== null ? arrivalsAround(answer.columns, at) : null
  })
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const shown = (): TimeHistoryProps => {
    const document = siteDocument()
    const [fromEpochMs, untilEpochMs] = shownWindow()
    const answered = asked.answer()
    const parted =
      answered === null
        ? { traces: [] }
        : withLater()
          ? { traces: historyTraces(answered.columns, answered.question.resolution) }
          : knownTraces(answered.columns, answered.question.resolution)
    return {
      fromEpochMs,
      untilEpochMs,
      clockEpochMs: clockEpochMs(),
      spanEpochMs: whole(),
      timeZone: zone(),
      series: document ? [historySeries(document, props.series)] : [],
      companions: [],
      ...parted,
      holds: [],
      stages: document ? historyStages(document) : [],
      diary: document ? historyDiary(document) : [],
      remarks: asked.remarks(),
      waiting: asked.waiting(),
      choosing: props.choosing ?? false,
      proposed: props.framed ?? null,
    }
  }
  const step = (label: string, arrival: () => Arrival | null) => (
    <button
      type="button"
      disabled={arrival() === null}
      onClick={() => scrubTo(arrival()?.weighedEpochMs ?? 0)}
    >
      {label}
      <Show when={arrival()}>
        {(one) => (
          <small>
            {' '}
            {formatInstant(one().receivedEpochMs, zone())}, {countOf(one().count, 'reading')}
          </small>
        )}
      </Show>
    </button>
  )
  return (
    <section class="review-history" aria-label="Readings as known then" ref={measure}>
      <fieldset class="chips" aria-label="Which readings are shown">
        <button type="button" aria-pressed={!withLater()} onClick={() => setWithLater(false)}>
          As known then
        </button>
        <button type="button" aria-pressed={withLater()} onClick={() => setWithLater(true)}>
          With what came later
        </button>
      </fieldset>
      <TimeHistory
        shown={shown}
        onClock={scrubTo}
        onWindow={(fromEpochMs, untilEpochMs) => setWindow([fromEpochMs, untilEpochMs])}
        onStretch={(stretch) => props.chosen?.(stretch)}
      />
      <Show when={arrivals()}>
        {(known) => (
          <>
            <div class="buttons">
              {step('◂ Arrival before', () => known().before)}
              {step('Next arrival ▸', () => known().next)}
            </div>
            <Show when={known().all.length > 0}>
              <details class="record-more">
                <summary>
                  What came more than a quarter of an hour late: {countOf(known().all.length, 'arrival')}
                </summary>
                <table class="plain">
                  <thead>
                    <tr>
                      <th scope="col">Came</th>
                      <th scope="col">Readings</th>
                      <th scope="col">Taken from, to</th>
                    </tr>
                  </thead>
                  <tbody>
                    <For each={known().all.slice(-mostListed)}>
                      {(one) => (
                        <tr>
                          <th scope="row">{formatInstant(one.receivedEpochMs, zone())}</th>
                          <td>{one.count}</td>
                          <td>
                            {formatInstant(one.firstAtEpochMs, zone())} to{' '}
                            {formatInstant(one.lastAtEpochMs, zone())}
                          </td>
                        </tr>
                      )}
                    </For>
                  </tbody>
                </table>
                <Show when={known().all.length > mostListed}>
                  <p>The last {mostListed} of them.</p>
                </Show>
              </details>
            </Show>
          </>
        )}
      </Show>
    </section>
  )
}

const mostListed = 60
const endOfTimeEpochMs = Date.UTC(2200, 0)

const countOf = (count: number, what: string) => `${count} ${what}${count === 1 ? '' : 's'}`

import { createMemo, createSignal, For, Show } from 'solid-js'
import { knownHistory } from '../queries/known-history.ts'
import { timeHistory } from '../queries/time-history.ts'
import { counting } from '../state/counted.ts'
import { selectedSeries } from '../state/selection.ts'
import { clockEpochMs, isAtPresent, scrubTo, spanEpochMs } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { createWidth } from '../ui/create-width.ts'
import {
  companionChoices,
  historyCompanion,
  historyDiary,
  historyHolds,
  historySeries,
  historyStages,
  historyTraces,
  knownTraces,
} from '../views/time-history/history-from-site.ts'
import type { HistoryStretch, TimeHistoryProps } from '../views/time-history/history-props.ts'
import { historyJoined, joinedSeries } from '../views/time-history/joined-history.ts'
import { TimeHistory } from '../views/time-history/TimeHistory.tsx'
import { WhenAllowed } from './access/WhenAllowed.tsx'
import { asMeasured } from './as-measured.ts'
import { createAnswer } from './create-answer.ts'
import { VerdictForm } from './VerdictForm.tsx'
import { VerdictList } from './VerdictList.tsx'
import { aboutSeries, verdictDrafts } from './verdict-drafts.ts'

const mostSeries = 6

/** Readings over time of what is selected, with weather, tide and pressure below where wanted. */
export function HistoryPanel() {
  const [width, measure] = createWidth(700)
  const [window, setWindow] = createSignal<readonly [from: number, until: number] | null>(null)
  const [companions, setCompanions] = createSignal<readonly string[]>([])
  const [unjoined, setUnjoined] = createSignal(false)
  const [partedHere, setPartedHere] = createSignal<boolean | null>(null)
  /** What came later is parted where the plan leaves it out, unless it was chosen otherwise here. */
  const asKnown = () => partedHere() ?? (counting() === 'known' && !isAtPresent())
  /** Whether the form was opened or shut for these series; what is typed in it is kept either way. */
  const [wanted, setWanted] = createSignal<{ readonly about: string; readonly open: boolean } | null>(null)
  const [choosing, setChoosing] = createSignal(false)
  const [dragged, setDragged] = createSignal<HistoryStretch | null>(null)
  const [proposed, setProposed] = createSignal<HistoryStretch | null>(null)
  const shownWindow = () => window() ?? ([spanEpochMs().fromEpochMs, spanEpochMs().untilEpochMs] as const)
  const choices = createMemo(() => {
    const document = siteDocument()
    return document ? companionChoices(document) : []
  })
  const chosen = () => choices().filter((choice) => companions().includes(choice.name))
  // What is made from a whole instrument says more than its many parts; those are one tap away.
  const series = createMemo(() => {
    const all = selectedSeries()
    const whole = all.filter((one) => one.point === one.id.split('/')[0] && all.length > mostSeries)
    return all.length > mostSeries && whole.length > 0 ? whole.slice(0, 1) : all.slice(0, mostSeries)
  })
  const about = () => aboutSeries(series())
  const entering = createMemo(() => {
    const asked = wanted()
    return asked?.about === about() ? asked.open : verdictDrafts.of(about()) !== null
  })
  const show = (open: boolean) => {
    setWanted({ about: about(), open })
    setChoosing(false)
    setDragged(null)
  }
  const earlier = createMemo(() => {
    const document = siteDocument()
    return document ? series().flatMap((one) => joinedSeries(document, one)) : []
  })
  const asked = createAnswer(() => {
    const known = [...series(), ...chosen().map((choice) => choice.series)]
    const wanted = [...known, ...(unjoined() ? [] : earlier().filter((one) => !known.includes(one)))]
    const [fromEpochMs, untilEpochMs] = shownWindow()
    if (series().length === 0 || untilEpochMs <= fromEpochMs) return null
    const window = {
      fromEpochMs,
      untilEpochMs,
      // The answer does not change with every pixel that the sheet is dragged.
      widthPixels: Math.ceil(width() / 100) * 100,
      intervalMinutes: Math.min(...wanted.map((one) => one.intervalMinutes)),
      series: wanted.map((one) => one.series),
    }
    const at = clockEpochMs()
    return asKnown() && at !== null ? knownHistory({ ...window, knownAtEpochMs: at }) : timeHistory(window)
  })
  const partedTraces = (answered: ReturnType<typeof asked.answer>) => {
    if (!answered) return { traces: [] }
    const { columns, question } = answered
    return 'knownAtEpochMs' in question
      ? knownTraces(columns, question.resolution)
      : { traces: historyTraces(columns, question.resolution) }
  }
  const shown = (): TimeHistoryProps => {
    const document = siteDocument()
    const [fromEpochMs, untilEpochMs] = shownWindow()
    const { fromEpochMs: first, untilEpochMs: last } = spanEpochMs()
    const answered = asked.answer()
    const left = selectedSeries().length - series().length
    return {
      fromEpochMs,
      untilEpochMs,
      clockEpochMs: clockEpochMs(),
      spanEpochMs: [first, last],
      timeZone: document?.facts.timeZone ?? 'UTC',
      series: document
        ? series().map((one) => ({
            ...historySeries(document, one),
            ...(unjoined() ? {} : { joined: historyJoined(document, one) }),
          }))
        : [],
      companions: document ? chosen().map((choice) => historyCompanion(document, choice)) : [],
      ...partedTraces(answered),
      holds: document ? historyHolds(document, series()) : [],
      stages: document ? historyStages(document) : [],
      diary: document ? historyDiary(document) : [],
      remarks: [
        ...(asKnown() ? [] : asMeasured()),
        ...asked.remarks(),
        ...(left > 0 ? [`${left} further series of it: choose a measuring point.`] : []),
      ],
      waiting: asked.waiting(),
      choosing: choosing(),
      proposed: proposed(),
    }
  }
  return (
    <div class="view-panel" classList={{ 'with-form': entering() }} ref={measure}>
      <Show
        when={series().length > 0}
        fallback={<p class="waiting">Select an instrument to see its readings over time.</p>}
      >
        <div class="view-choices">
          <fieldset class="chips" aria-label="Drivers drawn below">
            <For each={choices()}>
              {(choice) => (
                <button
                  type="button"
                  aria-pressed={companions().includes(choice.name)}
                  onClick={() =>
                    setCompanions((now) =>
                      now.includes(choice.name)
                        ? now.filter((one) => one !== choice.name)
                        : [...now, choice.name],
                    )
                  }
                >
                  {choice.name}
                </button>
              )}
            </For>
          </fieldset>
          <Show when={earlier().length > 0}>
            <fieldset class="chips" aria-label="Earlier series">
              <button
                type="button"
                aria-pressed={!unjoined()}
                title="Draw what these series carry on from on their level, by the recorded offset"
                onClick={() => setUnjoined((now) => !now)}
              >
                Joined to earlier series
              </button>
            </fieldset>
          </Show>
          <fieldset class="chips" aria-label="Receipt">
            <button
              type="button"
              aria-pressed={asKnown()}
              title="Part what had been received at the clock from what came later"
              onClick={() => setPartedHere(!asKnown())}
            >
              As known at the clock
            </button>
          </fieldset>
          <fieldset class="chips" aria-label="Verdict">
            <WhenAllowed to="change-records">
              <button type="button" aria-pressed={entering()} onClick={() => show(!entering())}>
                Enter a verdict
              </button>
            </WhenAllowed>
            <Show when={entering()}>
              <button
                type="button"
                aria-pressed={choosing()}
                title="Drag over the drawing to choose the stretch, in place of moving the dates"
                onClick={() => setChoosing((now) => !now)}
              >
                Drag over the stretch
              </button>
            </Show>
          </fieldset>
        </div>
        <TimeHistory
          shown={shown}
          onClock={scrubTo}
          onWindow={(fromEpochMs, untilEpochMs) => setWindow([fromEpochMs, untilEpochMs])}
          onStretch={(stretch) => {
            setDragged(stretch)
            setChoosing(false)
          }}
        />
        <Show when={entering() ? about() : null} keyed>
          {(_about) => (
            <>
              <VerdictForm
                series={series()}
                dragged={dragged()}
                proposes={setProposed}
                saved={() => show(false)}
                leave={() => show(false)}
              />
              <For each={series()}>{(one) => <VerdictList series={one.id} lookAgain />}</For>
            </>
          )}
        </Show>
      </Show>
    </div>
  )
}

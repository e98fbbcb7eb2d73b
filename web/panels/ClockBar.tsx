import { createMemo, createSignal, For, Show } from 'solid-js'
import { chooseSpeed, hoursPerSecond, pause, play, playing, playSpeeds } from '../state/playback.ts'
import {
  clockEpochMs,
  isAtPresent,
  jumpToPresent,
  scrubTo,
  spanEpochMs,
  stepClock,
} from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import {
  formatInstant,
  formatOffset,
  formatShortInstant,
  fromLocalField,
  toLocalField,
} from '../ui/format-instant.ts'
import { sync } from '../ui/sync.ts'
import { CountedThen, CountingChoice } from './CountedThen.tsx'
import { diaryWithin, monthTicks, shareOfSpan, stageStretches } from './clock-ticks.ts'

const hourMs = 3_600_000
const steps = [
  { name: 'hour', lengthMs: hourMs },
  { name: 'day', lengthMs: 24 * hourMs },
  { name: 'week', lengthMs: 168 * hourMs },
] as const

/** The site clock: drag, step, play, or go to a date; stages and diary stand along its scale. */
export function ClockBar() {
  const [more, setMore] = createSignal(false)
  const [step, setStep] = createSignal<number>(24 * hourMs)
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const at = () => clockEpochMs() ?? 0
  const stages = createMemo(() => stageStretches(siteDocument()?.stages ?? [], spanEpochMs()))
  const stageRows = () => Math.max(1, ...stages().map((stage) => stage.row + 1))
  const months = createMemo(() => monthTicks(spanEpochMs()))
  const diary = createMemo(() => diaryWithin(siteDocument()?.diary ?? [], spanEpochMs()))
  // In this order: a range holds its value within the ends it has at that moment.
  const followClock = (range: HTMLInputElement) =>
    sync(
      () => ({ ...spanEpochMs(), atEpochMs: at() }),
      ({ fromEpochMs, untilEpochMs, atEpochMs }) => {
        range.min = String(fromEpochMs)
        range.max = String(untilEpochMs)
        range.value = String(atEpochMs)
      },
    )
  const goToPresent = () => {
    pause()
    jumpToPresent()
  }
  const scrub = (atEpochMs: number) => {
    pause()
    scrubTo(atEpochMs)
  }
  return (
    <section class="clock-bar" classList={{ 'with-more': more() }} aria-label="Site clock" id="clock">
      <div class="clock-buttons">
        <button type="button" class="primary" onClick={() => (playing() ? pause() : play())}>
          {playing() ? 'Pause' : 'Play'}
        </button>
        <select
          aria-label="Speed"
          value={hoursPerSecond()}
          onChange={(event) => chooseSpeed(Number(event.currentTarget.value))}
        >
          <For each={playSpeeds}>{(speed) => <option value={speed.hoursPerSecond}>{speed.name}</option>}</For>
        </select>
        <button type="button" aria-label="One step back" onClick={() => stepClock(-step())}>
          ◂
        </button>
        <select
          aria-label="Step"
          value={step()}
          onChange={(event) => setStep(Number(event.currentTarget.value))}
        >
          <For each={steps}>{(one) => <option value={one.lengthMs}>{one.name}</option>}</For>
        </select>
        <button type="button" aria-label="One step forward" onClick={() => stepClock(step())}>
          ▸
        </button>
      </div>
      <button
        type="button"
        class="clock-more"
        aria-expanded={more()}
        aria-label="Date, diary and how values count"
        onClick={() => setMore((now) => !now)}
      >
        {more() ? 'Less' : 'More'}
      </button>
      <div class="clock-scale">
        <div class="clock-stages" aria-hidden="true" style={{ height: `${stageRows() * 1.15 + 0.1}rem` }}>
          <For each={stages()}>
            {(stage) => (
              <span
                class="clock-stage"
                style={{
                  left: `${stage.from * 100}%`,
                  width: `${(stage.until - stage.from) * 100}%`,
                  top: `${stage.row * 1.15}rem`,
                }}
                title={stage.name}
              >
                {stage.name}
              </span>
            )}
          </For>
        </div>
        <input
          type="range"
          class="clock-range"
          aria-label="Site clock"
          aria-valuetext={`${formatInstant(at(), zone())} ${formatOffset(at(), zone())}`}
          step={hourMs}
          ref={followClock}
          onInput={(event) => scrub(Number(event.currentTarget.value))}
        />
        <div class="clock-ticks" aria-hidden="true">
          <For each={months()}>
            {(month) => (
              <span class="clock-month" style={{ left: `${month.share * 100}%` }}>
                {month.name}
              </span>
            )}
          </For>
          <For each={diary()}>
            {(entry) => (
              <span
                class={`clock-event clock-event-${entry.kind}`}
                style={{ left: `${shareOfSpan(entry.at, spanEpochMs()) * 100}%` }}
              />
            )}
          </For>
        </div>
      </div>
      <div class="clock-where">
        <input
          type="datetime-local"
          aria-label="Go to date and time, in the site’s zone"
          value={toLocalField(at(), zone())}
          onChange={(event) => {
            const wanted = fromLocalField(event.currentTarget.value, zone())
            if (wanted !== null) scrub(wanted)
          }}
        />
        <button type="button" disabled={isAtPresent()} onClick={goToPresent}>
          Present
        </button>
        <button type="button" popoverTarget="diary">
          Diary
        </button>
      </div>
      <CountingChoice />
      <CountedThen />
      <div id="diary" popover="auto" class="diary" role="dialog" aria-label="Works diary">
        <h2>Works diary</h2>
        <Show when={diary().length > 0} fallback={<p>No entry.</p>}>
          <ul>
            <For each={diary()}>
              {(entry) => (
                <li>
                  <button type="button" onClick={() => scrub(entry.at)}>
                    <time datetime={new Date(entry.at).toISOString()}>
                      {formatShortInstant(entry.at, zone())}
                    </time>
                    <span class={`diary-kind diary-kind-${entry.kind}`}>{entry.kind}</span>
                    <span>{entry.text}</span>
                    <small>{entry.author}</small>
                  </button>
                </li>
              )}
            </For>
          </ul>
        </Show>
      </div>
    </section>
  )
}

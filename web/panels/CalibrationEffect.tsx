import { createSignal, For, type JSX, Show } from 'solid-js'
import type { CalibrationPreview, PreviewBand } from '#contract/calibration-preview.ts'
import type { Series } from '#contract/site-document.ts'
import { clockEpochMs, scrubTo } from '../state/site-clock.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatInstant } from '../ui/format-instant.ts'
import { formatValue, withUnit } from '../ui/format-value.ts'
import { historySeries, historyStages } from '../views/time-history/history-from-site.ts'
import type { HistoryTrace, TimeHistoryProps } from '../views/time-history/history-props.ts'
import { TimeHistory } from '../views/time-history/TimeHistory.tsx'

/** What a draft would change over the whole series: in words, as a drawing, and past which levels. */
export function CalibrationEffect(props: {
  series: Series
  preview: CalibrationPreview
  validFromEpochMs: number | null
  children: JSX.Element
}) {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const span = () => {
    const stretches = props.preview.stretches
    const width = props.preview.resolution === 'hour' ? 3_600_000 : 86_400_000
    return [stretches[0]?.fromEpochMs ?? 0, (stretches.at(-1)?.fromEpochMs ?? 0) + width] as const
  }
  const [window, setWindow] = createSignal<readonly [number, number] | null>(null)
  const shown = (): TimeHistoryProps => {
    const document = siteDocument()
    const [fromEpochMs, untilEpochMs] = window() ?? span()
    const like = document ? historySeries(document, props.series) : null
    return {
      fromEpochMs,
      untilEpochMs,
      clockEpochMs: clockEpochMs(),
      spanEpochMs: span(),
      timeZone: zone(),
      series: like
        ? [
            { ...like, series: asItIs, name: 'As it is' },
            { ...like, series: withDraft, name: 'With the draft', levels: [] },
          ]
        : [],
      companions: [],
      traces: [traceOf(props.preview, asItIs, 'old'), traceOf(props.preview, withDraft, 'new')],
      holds: [],
      stages: document ? historyStages(document) : [],
      diary: [],
      remarks: [],
      waiting: false,
    }
  }
  const value = (number: number) => withUnit(formatValue(number, props.series.decimals), props.preview.unit)
  const levelName = (level: number) => siteDocument()?.facts.levelNames[level - 1] ?? `Level ${level}`
  return (
    <section class="calibration-effect" aria-label="What the draft would change">
      <h4>What it would change</h4>
      <ul>
        <li>
          {props.preview.changed} of {props.preview.readings} readings of {props.preview.sensor} would have
          another value.
        </li>
        <Show when={props.preview.greatestChange}>
          {(greatest) => (
            <li>
              The greatest change is at {formatInstant(greatest().atEpochMs, zone())}: from{' '}
              {value(greatest().old)} to {value(greatest().new)}.
            </li>
          )}
        </Show>
        <Show when={props.preview.lost > 0}>
          <li class="trouble">{props.preview.lost} readings would lose their value.</li>
        </Show>
        <Show when={props.preview.gained > 0}>
          <li>{props.preview.gained} readings that have no value now would have one.</li>
        </Show>
        <For each={props.preview.levels}>
          {(level) => (
            <li>
              {levelName(level.level)} ({level.direction} {value(level.value)}): {level.reachedOld} readings
              at or past it as it is, {level.reachedNew} with the draft.
            </li>
          )}
        </For>
        <Show when={props.preview.zeroReadingsLeft}>
          {(sentence) => <li class="trouble">{sentence()}</li>}
        </Show>
        <Show when={props.preview.alsoChanges.length > 0}>
          <li>Series that would change with it: {props.preview.alsoChanges.join(', ')}.</li>
        </Show>
      </ul>
      <p>
        Raw readings stay as they are, and so do the versions before. Whether the change is right is for the
        responsible engineer to judge.
      </p>
      <div class="calibration-plot">
        <TimeHistory
          shown={shown}
          onClock={scrubTo}
          onWindow={(fromEpochMs, untilEpochMs) => setWindow([fromEpochMs, untilEpochMs])}
        />
      </div>
      {props.children}
    </section>
  )
}

const asItIs = -1
const withDraft = -2

function traceOf(preview: CalibrationPreview, series: number, which: 'old' | 'new'): HistoryTrace {
  const { stretches, resolution } = preview
  const take = (name: keyof PreviewBand) =>
    Float64Array.from(stretches.map((stretch) => stretch[which][name] ?? Number.NaN))
  return {
    series,
    resolution,
    atEpochMs: Float64Array.from(stretches.map(({ fromEpochMs }) => fromEpochMs)),
    value: take('mean'),
    low: take('low'),
    high: take('high'),
    count: Float64Array.from(stretches.map((stretch) => (stretch[which].mean === null ? 0 : 1))),
    quality: new Float64Array(stretches.length),
    flags: new Float64Array(stretches.length),
  }
}

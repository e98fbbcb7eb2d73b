import { createMemo, For } from 'solid-js'
import { crossPlot } from '#domain/review/cross-plot.ts'
import { pairMeans, pairNearest } from '#domain/review/pair-readings.ts'
import { comparedTraces } from '../../derived/review/compared-traces.ts'
import { crossFigure } from '../../derived/review/cross-figure.ts'
import { knownReadingsOf } from '../../queries/review-readings.ts'
import { comparedSeries, drawAgainst, leadCompared, swapCompared } from '../../state/compared.ts'
import { pairBy, pairedAges, pairedHow } from '../../state/paired-how.ts'
import { reviewStretch } from '../../state/reviewed-series.ts'
import { siteDocument } from '../../state/site-document.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { Figure } from '../../views/figure/Figure.tsx'
import { createAnswer } from '../create-answer.ts'

const ways = [
  { by: 'nearest', name: 'Readings nearest in time' },
  { by: 'hour', name: 'Means of an hour' },
  { by: 'day', name: 'Means of a day' },
] as const

/** One of the series compared against another. */
export function CrossPlotFigure() {
  const x = () => comparedSeries()[1] ?? null
  const y = () => comparedSeries()[0] ?? null
  const readings = createAnswer(() => {
    const [stretch, one, other] = [reviewStretch(), x(), y()]
    return stretch && one && other
      ? knownReadingsOf({ ...stretch, series: [...new Set([one.series, other.series])] })
      : null
  })
  const figure = createMemo(() => {
    const [document, stretch, answered, one, other] = [
      siteDocument(),
      reviewStretch(),
      readings.answer(),
      x(),
      y(),
    ]
    if (!document || !stretch || !answered || !one || !other || readings.waiting()) return null
    const traces = comparedTraces(document, [one, other], answered.columns, stretch)
    const [first, second] = traces
    if (!first || !second) return null
    const { by, mostApartMinutes, lagHours } = pairedHow()
    const lagMs = lagHours * 3_600_000
    const paired =
      by === 'nearest'
        ? pairNearest(first, second, { mostApartMs: mostApartMinutes * 60_000, lagMs })
        : pairMeans(first, second, {
            fromEpochMs: stretch.fromEpochMs,
            untilEpochMs: stretch.asOfEpochMs,
            stepMs: by === 'hour' ? 3_600_000 : 86_400_000,
            lagMs,
          })
    return crossFigure([first, second], paired, crossPlot(paired.pairs), pairedHow(), {
      decimals: [one.decimals, other.decimals],
      timeZone: document.facts.timeZone,
    })
  })
  const choice = (label: string, chosen: () => string | undefined, choose: (id: string) => void) => (
    <label>
      {label}
      <select onInput={(event) => choose(event.currentTarget.value)}>
        <For each={comparedSeries()}>
          {(one) => (
            <option value={one.id} selected={one.id === chosen()}>
              {one.point}, {measureNames[one.measure].toLowerCase()}
            </option>
          )}
        </For>
      </select>
    </label>
  )
  return (
    <section aria-label="One against another" class="cross-plot">
      <h3>One against another</h3>
      <div class="review-asked">
        {choice('Across', () => x()?.id, drawAgainst)}
        {choice('Up', () => y()?.id, leadCompared)}
        <button
          type="button"
          onClick={() => {
            swapCompared()
            pairBy({ lagHours: 0 - pairedHow().lagHours })
          }}
        >
          Swap axes
        </button>
        <label>
          Paired by
          <select
            onInput={(event) =>
              pairBy({ by: ways.find(({ by }) => by === event.currentTarget.value)?.by ?? 'day' })
            }
          >
            <For each={ways}>
              {({ by, name }) => (
                <option value={by} selected={pairedHow().by === by}>
                  {name}
                </option>
              )}
            </For>
          </select>
        </label>
        <label>
          At most apart
          <select
            disabled={pairedHow().by !== 'nearest'}
            onInput={(event) => pairBy({ mostApartMinutes: Number(event.currentTarget.value) })}
          >
            <For each={pairedAges}>
              {(minutes) => (
                <option value={minutes} selected={pairedHow().mostApartMinutes === minutes}>
                  {minutes < 60 ? `${minutes} min` : `${minutes / 60} h`}
                </option>
              )}
            </For>
          </select>
        </label>
        <label>
          Up is read later by, h
          <input
            type="number"
            step="1"
            min="-720"
            max="720"
            value={pairedHow().lagHours}
            onChange={(event) => {
              const hours = event.currentTarget.valueAsNumber
              pairBy({ lagHours: Number.isFinite(hours) ? hours : 0 })
            }}
          />
        </label>
      </div>
      <For each={readings.remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
      <div class="cross-drawing">
        <Figure
          shown={() => figure() ?? waitingFigure(siteDocument()?.facts.timeZone ?? 'UTC')}
          onChoose={() => undefined}
        />
      </div>
    </section>
  )
}

const waitingFigure = (timeZone: string): ReturnType<typeof crossFigure> => ({
  title: 'One series against another.',
  x: { name: '', unit: '', scale: 'even', reversed: false, decimals: 0, including: [] },
  y: { name: '', unit: '', scale: 'even', reversed: false, decimals: 0, including: [] },
  bands: [],
  curves: [],
  points: [],
  rules: [],
  selected: null,
  timeZone,
  table: { caption: '', headings: [], rows: [] },
  remarks: [],
  message: 'Readings are being paired …',
})

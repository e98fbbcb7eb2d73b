import { createMemo, createSignal, For, Show } from 'solid-js'
import type { Analysis } from '#domain/ground/analysis.ts'
import type { PlainDrawdownFit } from '#domain/ground/groundwater/fit-drawdown.ts'
import {
  compareDrawdown,
  type DrawdownComparison,
  type MeasuredDrawdown,
} from '#domain/ground/groundwater/measured-drawdown.ts'
import { pumpingOfStratum } from '#domain/ground/groundwater/pumping-records.ts'
import type { Outcome } from '#domain/outcome.ts'
import { siteWater } from '#domain/site/site-water.ts'
import { drawdownAtClockFigure } from '../../derived/figures/drawdown-at-clock-figure.ts'
import { drawdownFigure } from '../../derived/figures/drawdown-figure.ts'
import {
  drawdownsOfTip,
  levelTips,
  newestDrawdown,
  thinned,
} from '../../derived/ground/measured-drawdowns.ts'
import { excavationAround, wallSentence } from '../../derived/ground/parted-from-wells.ts'
import { selectedPoint } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { siteGrid } from '../../state/site-grid.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { createDrawdownFit, type DrawdownRequest } from './drawdown-fit.ts'
import { NumberField } from './NumberField.tsx'
import { createReadingsOfSeries } from './series-readings.ts'
import { startAfterClock } from './start-after-clock.ts'

const dayMs = 86_400_000
/** So many drawdowns of a tip over time: more would be drawn over each other, and no more independent. */
const mostOfTip = 40

/** What is drawn, of one instant. */
interface Found {
  readonly stratum: string | null
  readonly sinceEpochMs: number | null
  readonly atEpochMs: number
  readonly atClock: Outcome<DrawdownComparison>
  readonly overTime: Outcome<DrawdownComparison>
  readonly tip: string | null
  readonly fit: Outcome<PlainDrawdownFit> | null
  readonly sentences: readonly string[]
}

/** Drawdown by Theis with image wells beside what piezometers show, at the clock and over time. */
export function DrawdownAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const strata = createMemo(() => {
    const document = siteDocument()
    return [...new Set([...(document?.wells ?? []), ...(document?.aquifers ?? [])].map((one) => one.stratum))]
  })
  const [chosen, setChosen] = createSignal<string | null>(null)
  const stratum = () => strata().find((one) => one === chosen()) ?? strata()[0] ?? null
  const [daysBefore, setDaysBefore] = createSignal(14)
  const [fitted, setFitted] = createSignal(false)
  const [insideToo, setInsideToo] = createSignal(false)
  const [wantedTip, setWantedTip] = createSignal<string | null>(null)
  const pumping = createMemo(() => {
    const [document, grid, of] = [siteDocument(), siteGrid(), stratum()]
    return document && grid && of !== null ? pumpingOfStratum(document, of, grid) : null
  })
  const start = () => {
    const known = pumping()
    return known?.ok ? known.value.startEpochMs : null
  }
  const tips = createMemo(() => {
    const [document, at] = [siteDocument(), clockEpochMs()]
    return document && at !== null ? levelTips(document, stratum(), at) : []
  })
  const asked = createReadingsOfSeries(() => {
    const [at, since] = [clockEpochMs(), start()]
    if (at === null || since === null || since > at || tips().length === 0) return null
    return {
      series: tips().map(({ series }) => series),
      fromEpochMs: since - daysBefore() * dayMs,
      untilEpochMs: at,
    }
  })
  const measured = createMemo(() => {
    const [document, grid, since, read] = [siteDocument(), siteGrid(), start(), asked.readings()]
    if (!document || !grid || since === null || !read) return null
    const question = {
      startEpochMs: since,
      daysBefore: daysBefore(),
      unitWeightKnPerM3: siteWater(document.facts).unitWeightKnPerM3,
      setAside: (point: { readonly eastingMetres: number; readonly northingMetres: number }) => {
        const name = insideToo() ? null : excavationAround(document.works, grid, point)
        return name === null
          ? null
          : `It stands inside the outline of ${name}, where walls keep the layer apart from the even one that Theis takes.`
      },
    }
    return tips().flatMap((tip) => {
      const readings = read.get(tip.series.series)
      if (!readings) return []
      const drawdowns = drawdownsOfTip(tip, readings, question)
      return [
        {
          id: tip.point.id,
          newest: newestDrawdown(drawdowns, readings.late),
          overTime: thinned(drawdowns, mostOfTip),
        },
      ]
    })
  })
  const fitWanted = createMemo((): DrawdownRequest | null => {
    const [records, of] = [pumping(), measured()]
    if (!fitted() || !records?.ok || !of) return null
    const { aquifer, wells, boundary } = records.value
    return [aquifer, wells, boundary, of.flatMap(({ overTime }) => overTime)]
  })
  const fitOfReadings = createDrawdownFit(fitWanted)
  /** Whole for one instant: while a fit is worked out, what was found before stays, with its own instant. */
  const found = createMemo((before: Found | null): Found | null => {
    const [document, grid, records, of, at] = [
      siteDocument(),
      siteGrid(),
      pumping(),
      measured(),
      clockEpochMs(),
    ]
    if (!document || !grid || !records || at === null) return null
    const asOf = { stratum: stratum(), sinceEpochMs: start(), atEpochMs: at }
    if (!records.ok)
      return { ...asOf, atClock: records, tip: null, overTime: records, fit: null, sentences: [] }
    if (!of) return null
    const { aquifer: designed, wells, boundary, sentences } = records.value
    const fit = fitted() ? fitOfReadings() : null
    if (fitted() && fit === null) return before
    const aquifer = fit?.ok ? fit.value.aquifer : designed
    const compare = (rows: readonly MeasuredDrawdown[]) =>
      fit && !fit.ok ? fit : compareDrawdown(aquifer, wells, boundary, rows, 'd')
    const atClock = compare(of.flatMap(({ newest }) => newest ?? []))
    const compared = atClock.ok ? atClock.value.used : []
    const tip =
      of.find(({ id }) => id === (wantedTip() ?? selectedPoint()?.id)) ??
      of.find(({ id }) => id === compared[0]?.id) ??
      of[0]
    const wall = wallSentence(document.works, grid, at, wells, compared)
    return {
      ...asOf,
      atClock,
      tip: tip?.id ?? null,
      overTime: compare(tip?.overTime ?? []),
      fit,
      sentences: [...sentences, ...(wall === null ? [] : [wall]), tideSentence],
    }
  }, null)
  return (
    <Show
      when={strata().length > 0}
      fallback={
        <p class="waiting">
          The records name no pumped well. Add wells.csv, pumping-rates.csv and aquifers.csv to the site
          folder.
        </p>
      }
    >
      <div class="ground-fields">
        <label class="ground-field">
          Stratum
          <select value={stratum() ?? ''} onChange={(event) => setChosen(event.currentTarget.value)}>
            <For each={strata()}>{(one) => <option value={one}>{one}</option>}</For>
          </select>
        </label>
        <label class="ground-field">
          T and S
          <select
            value={fitted() ? 'fitted' : 'stated'}
            onChange={(event) => setFitted(event.currentTarget.value === 'fitted')}
          >
            <option value="stated">as stated in the records</option>
            <option value="fitted">fitted to these readings</option>
          </select>
        </label>
        <label class="ground-field">
          Tips inside excavations
          <select
            value={insideToo() ? 'compared' : 'left-out'}
            onChange={(event) => setInsideToo(event.currentTarget.value === 'compared')}
          >
            <option value="left-out">left out</option>
            <option value="compared">compared too</option>
          </select>
        </label>
        <NumberField
          name="Level before: mean over"
          unit="d"
          value={daysBefore()}
          least={1}
          most={365}
          onChange={setDaysBefore}
        />
        <label class="ground-field">
          Over time at
          <select value={found()?.tip ?? ''} onChange={(event) => setWantedTip(event.currentTarget.value)}>
            <For each={measured() ?? []}>{({ id }) => <option value={id}>{id}</option>}</For>
          </select>
        </label>
      </div>
      <For each={[...startAfterClock(start()), ...asked.remarks()]}>
        {(remark) => <p class="waiting">{remark}</p>}
      </For>
      <For each={found()?.sentences ?? []}>{(sentence) => <p class="waiting">{sentence}</p>}</For>
      <Show
        when={found()}
        keyed
        fallback={
          <p class="waiting">
            {asked.waiting()
              ? 'Asking for levels …'
              : fitWanted() && !fitOfReadings()
                ? 'Fitting T and S …'
                : 'No readings.'}
          </p>
        }
      >
        {({ atClock, overTime, tip, fit, stratum: of, sinceEpochMs: since, atEpochMs }) => {
          const options = { selected: selectedPoint()?.id ?? null, timeZone: zone() }
          return (
            <AnalysisResult
              figures={[
                drawdownAtClockFigure(atClock, {
                  ...options,
                  title: `${of}: drawdown at ${formatShortInstant(atEpochMs, zone())}, measured against computed`,
                }),
                ...(since === null
                  ? []
                  : [
                      drawdownFigure(overTime, {
                        ...options,
                        title: `${tip ?? ''}: drawdown since ${formatShortInstant(since, zone())}`,
                        timeUnit: 'd' as const,
                      }),
                    ]),
              ]}
              accounts={[
                ...(fit?.ok ? [{ heading: 'Fit of T and S', account: onceATip(fit.value) }] : []),
                ...(atClock.ok ? [{ heading: 'At the clock', account: atClock.value }] : []),
              ]}
              nameOf={(one: MeasuredDrawdown) => one.id}
            />
          )
        }}
      </Show>
    </Show>
  )
}

/** The account of many readings names each tip once: the method says how many readings there were. */
function onceATip<Of extends Analysis<MeasuredDrawdown>>(account: Of): Analysis<MeasuredDrawdown> {
  const first = new Map(account.used.map((one) => [one.id, one]))
  const firstOut = new Map(account.leftOut.map((one) => [`${one.item.id} ${one.reason}`, one]))
  return { ...account, used: [...first.values()], leftOut: [...firstOut.values()] }
}

const tideSentence =
  'What moves the level besides pumping, such as a tide, rain or the air, is not taken off: means of days hold little of a tide, single dips of a standpipe all of it.'

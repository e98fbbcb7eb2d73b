import { createMemo, createSignal } from 'solid-js'
import type { PlainDrawdownFit } from '#domain/ground/groundwater/fit-drawdown.ts'
import {
  compareDrawdown,
  type DrawdownComparison,
  type MeasuredDrawdown,
} from '#domain/ground/groundwater/measured-drawdown.ts'
import { pumpingOfStratum } from '#domain/ground/groundwater/pumping-records.ts'
import type { Outcome } from '#domain/outcome.ts'
import { siteWater } from '#domain/site/site-water.ts'
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
import { createDrawdownFit, type DrawdownRequest } from './drawdown-fit.ts'
import { createReadingsOfSeries } from './series-readings.ts'

const dayMs = 86_400_000

/** So many drawdowns of a tip over time: more would be drawn over each other, and no more independent. */
const mostOfTip = 40

/** What is drawn, of one instant. */
export interface FoundDrawdown {
  readonly stratum: string | null
  readonly sinceEpochMs: number | null
  readonly atEpochMs: number
  readonly atClock: Outcome<DrawdownComparison>
  readonly overTime: Outcome<DrawdownComparison>
  readonly tip: string | null
  readonly fit: Outcome<PlainDrawdownFit> | null
  readonly sentences: readonly string[]
}

/** What a person asks of drawdowns, what is known of them, and what is found. */
export function createDrawdown() {
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
  const found = createMemo((before: FoundDrawdown | null): FoundDrawdown | null => {
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
  return {
    strata,
    stratum,
    setStratum: setChosen,
    daysBefore,
    setDaysBefore,
    isFitted: fitted,
    setFitted,
    areInsideToo: insideToo,
    setInsideToo,
    setTip: setWantedTip,
    startEpochMs: start,
    asked,
    tips: () => (measured() ?? []).map(({ id }) => id),
    isFitting: () => fitWanted() !== null && !fitOfReadings(),
    found,
  }
}

const tideSentence =
  'What moves the level besides pumping, such as a tide, rain or the air, is not taken off: means of days hold little of a tide, single dips of a standpipe all of it.'

import { createMemo, createSignal, For, Show } from 'solid-js'
import type { SettlementReading } from '#domain/ground/embankments/final-settlement.ts'
import { settlementForecasts } from '#domain/ground/embankments/settlement-forecasts.ts'
import { settlementForecastFigures } from '../../derived/figures/settlement-forecast-figures.ts'
import { selectedSeries } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { NumberField } from './NumberField.tsx'
import { SinceField } from './SinceField.tsx'
import { createSeriesReadings } from './series-readings.ts'

const dayMs = 86_400_000

/** Where the settlement of the selected point is heading under a load that no longer changes, by two methods. */
export function FinalSettlementAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const series = createMemo(
    () => selectedSeries().find(({ measure, unit }) => measure === 'settlement' && unit === 'mm') ?? null,
  )
  const [loaded, setLoaded] = createSignal<number | null>(null)
  const [fromDays, setFromDays] = createSignal(0)
  const [intervalDays, setIntervalDays] = createSignal(7)
  /** The end of the last stage that ended a month or more before the clock; else two months before it. */
  const loadedAtEpochMs = createMemo(() => {
    const at = clockEpochMs() ?? 0
    const ends = (siteDocument()?.stages ?? []).flatMap(({ endsAt }) =>
      endsAt !== null && endsAt <= at - 30 * dayMs ? [endsAt] : [],
    )
    return loaded() ?? (ends.length > 0 ? Math.max(...ends) : at - 60 * dayMs)
  })
  const { readings, remarks, waiting } = createSeriesReadings(() => {
    const [on, at] = [series(), clockEpochMs()]
    return on && at !== null ? { series: on, fromEpochMs: loadedAtEpochMs(), untilEpochMs: at } : null
  })
  const forecasts = createMemo(() => {
    const read = readings()
    return read
      ? settlementForecasts(read.atEpochMs, read.values, {
          loadedAtEpochMs: loadedAtEpochMs(),
          window: { fromDays: fromDays(), untilDays: null },
          intervalDays: intervalDays(),
        })
      : null
  })
  const accounts = () => {
    const found = forecasts()
    if (!found) return []
    return [
      ...(found.byEqualIntervals.ok
        ? [{ heading: 'By equal intervals', account: found.byEqualIntervals.value }]
        : []),
      ...(found.byHyperbola.ok ? [{ heading: 'By a hyperbola', account: found.byHyperbola.value }] : []),
    ]
  }
  return (
    <Show
      when={series()}
      fallback={
        <p class="waiting">Select a point that settles: its settlement in mm is carried on from here.</p>
      }
    >
      {(on) => (
        <>
          <div class="ground-fields">
            <SinceField name="Loading ended" atEpochMs={loadedAtEpochMs()} onChange={setLoaded} />
            <NumberField name="Fitted from" unit="d" value={fromDays()} least={0} onChange={setFromDays} />
            <NumberField
              name="Equal intervals of"
              unit="d"
              value={intervalDays()}
              least={0.5}
              onChange={setIntervalDays}
            />
          </div>
          <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
          <For each={readings()?.sentences ?? []}>{(sentence) => <p class="trouble">{sentence}</p>}</For>
          <Show
            when={forecasts()}
            fallback={<p class="waiting">{waiting() ? 'Asking for readings …' : 'No readings.'}</p>}
          >
            {(found) => (
              <AnalysisResult
                figures={settlementForecastFigures(found(), {
                  title: `${on().point}: settlement since ${formatShortInstant(loadedAtEpochMs(), zone())}`,
                  selected: null,
                  timeZone: zone(),
                })}
                accounts={accounts()}
                nameOf={(reading: SettlementReading) => `${reading.atDays.toFixed(1)} d`}
              />
            )}
          </Show>
        </>
      )}
    </Show>
  )
}

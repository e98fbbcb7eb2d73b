import { createMemo, createSignal, For, Show } from 'solid-js'
import { type SeriesValue, seriesAccount } from '#domain/ground/series-account.ts'
import { lookAtSeries } from '#domain/statistics/look-at-series.ts'
import { unitSymbol } from '#domain/units.ts'
import { seriesLookFigure } from '../../derived/figures/series-look-figure.ts'
import { selectedSeries } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { NumberField } from './NumberField.tsx'
import { createSeriesReadings } from './series-readings.ts'

const dayMs = 86_400_000

/** Trend, steps and values that stand off in the last days of the selected series: told, never taken off. */
export function SeriesAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const series = () => selectedSeries()[0] ?? null
  const [days, setDays] = createSignal(60)
  const fromEpochMs = () => (clockEpochMs() ?? 0) - days() * dayMs
  const { readings, remarks, waiting } = createSeriesReadings(() => {
    const [on, at] = [series(), clockEpochMs()]
    return on && at !== null ? { series: on, fromEpochMs: fromEpochMs(), untilEpochMs: at } : null
  })
  const found = createMemo(() => {
    const [read, on] = [readings(), series()]
    if (!read || !on) return null
    const all = read.values.map(
      (value, at): SeriesValue => ({ value, atEpochMs: read.atEpochMs[at] ?? Number.NaN }),
    )
    const known = all.flatMap((one) => (one.value === null ? [] : [{ ...one, value: one.value }]))
    return {
      look: lookAtSeries(
        known.map(({ atEpochMs }) => atEpochMs),
        known.map(({ value }) => value),
        { leastSpread: 10 ** -on.decimals },
      ),
      leftOut: all
        .filter(({ value }) => value === null)
        .map((item) => ({ item, reason: 'It was read, but has no value.' })),
    }
  })
  return (
    <Show
      when={series()}
      fallback={<p class="waiting">Select a point: its first series is looked at here.</p>}
    >
      {(on) => (
        <>
          <div class="ground-fields">
            <NumberField name="Over the last" unit="d" value={days()} least={1} onChange={setDays} />
          </div>
          <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
          <For each={readings()?.sentences ?? []}>{(sentence) => <p class="trouble">{sentence}</p>}</For>
          <Show
            when={found()}
            fallback={<p class="waiting">{waiting() ? 'Asking for readings …' : 'No readings.'}</p>}
          >
            {(seen) => {
              const unit = () => unitSymbol(on().unit)
              const account = () => {
                const { look, leftOut } = seen()
                return look.ok
                  ? [{ heading: 'Series', account: seriesAccount(look.value, on().unit, leftOut) }]
                  : []
              }
              const figure = () => {
                const drawn = seriesLookFigure(seen().look, {
                  title: `${on().id} since ${formatShortInstant(fromEpochMs(), zone())}`,
                  name: measureNames[on().measure],
                  unit: unit(),
                  decimals: on().decimals,
                  selected: null,
                  timeZone: zone(),
                })
                return {
                  ...drawn,
                  remarks: [...drawn.remarks, ...account().flatMap((one) => one.account.remarks)],
                }
              }
              return (
                <AnalysisResult
                  figures={[figure()]}
                  accounts={account()}
                  nameOf={(value: SeriesValue) => formatShortInstant(value.atEpochMs, zone())}
                />
              )
            }}
          </Show>
        </>
      )}
    </Show>
  )
}

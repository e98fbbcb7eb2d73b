import { createMemo, createSignal, For, Show } from 'solid-js'
import { forecastFailure } from '#domain/ground/slopes/failure-forecast.ts'
import { type MovementReading, movementReadings } from '#domain/ground/slopes/movement-reading.ts'
import { presentVelocity } from '#domain/ground/slopes/present-velocity.ts'
import { reject } from '#domain/outcome.ts'
import { inverseVelocityFigure, velocityFigure } from '../../derived/figures/slope-figures.ts'
import { selectedSeries } from '../../state/selection.ts'
import { clockEpochMs } from '../../state/site-clock.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { NumberField } from './NumberField.tsx'
import { createSeriesReadings } from './series-readings.ts'

const dayMs = 86_400_000
const notNow = {
  code: 'readings-late',
  message:
    'The last reading is late, so no velocity is stated for now. Read the point, or set the clock back to when it was read.',
}

/** How fast the selected movement goes at the clock, its class, and whether its inverse velocity says anything. */
export function MovementAnalysis() {
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  const series = createMemo(() => selectedSeries().find(({ unit }) => unit === 'mm') ?? null)
  const [days, setDays] = createSignal(60)
  const [lag, setLag] = createSignal(3)
  const fromEpochMs = () => (clockEpochMs() ?? 0) - days() * dayMs
  const { readings, remarks, waiting } = createSeriesReadings(() => {
    const [on, at] = [series(), clockEpochMs()]
    return on && at !== null ? { series: on, fromEpochMs: fromEpochMs(), untilEpochMs: at } : null
  })
  const found = createMemo(() => {
    const read = readings()
    if (!read) return null
    const moved = movementReadings(read.atEpochMs, read.values)
    // A class of velocity from old readings would be taken for one of now.
    if (read.late) return { velocity: reject(notNow), failure: reject(notNow) }
    return {
      velocity: presentVelocity(moved, fromEpochMs()),
      failure: forecastFailure(moved, Math.max(1, Math.round(lag()))),
    }
  })
  const accounts = () => {
    const both = found()
    if (!both) return []
    return [
      ...(both.velocity.ok ? [{ heading: 'Velocity now', account: both.velocity.value }] : []),
      ...(both.failure.ok ? [{ heading: 'Inverse velocity', account: both.failure.value }] : []),
    ]
  }
  return (
    <Show
      when={series()}
      fallback={<p class="waiting">Select a point that moves: a series in mm is looked at here.</p>}
    >
      {(on) => (
        <>
          <div class="ground-fields">
            <NumberField name="Over the last" unit="d" value={days()} least={1} onChange={setDays} />
            <NumberField
              name="Rates over so many readings"
              unit=""
              value={lag()}
              least={1}
              most={50}
              step={1}
              onChange={setLag}
            />
          </div>
          <For each={remarks()}>{(remark) => <p class="waiting">{remark}</p>}</For>
          <For each={readings()?.sentences ?? []}>{(sentence) => <p class="trouble">{sentence}</p>}</For>
          <Show
            when={found()}
            fallback={<p class="waiting">{waiting() ? 'Asking for readings …' : 'No readings.'}</p>}
          >
            {(both) => {
              const options = (what: string) => ({
                title: `${on().id}: ${what}, since ${formatShortInstant(fromEpochMs(), zone())}`,
                selected: null,
                timeZone: zone(),
              })
              return (
                <AnalysisResult
                  figures={[
                    velocityFigure(both().velocity, options('velocity')),
                    inverseVelocityFigure(both().failure, options('inverse velocity')),
                  ]}
                  accounts={accounts()}
                  nameOf={(reading: MovementReading) => formatShortInstant(reading.atEpochMs, zone())}
                />
              )
            }}
          </Show>
        </>
      )}
    </Show>
  )
}

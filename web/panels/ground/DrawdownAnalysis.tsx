import { For, Show } from 'solid-js'
import type { MeasuredDrawdown } from '#domain/ground/groundwater/measured-drawdown.ts'
import { drawdownAtClockFigure } from '../../derived/figures/drawdown-at-clock-figure.ts'
import { drawdownFigure } from '../../derived/figures/drawdown-figure.ts'
import { selectedPoint } from '../../state/selection.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { AnalysisResult } from './AnalysisResult.tsx'
import { createDrawdown } from './create-drawdown.ts'
import { DrawdownFields } from './DrawdownFields.tsx'
import { onceATip } from './once-a-tip.ts'
import { startAfterClock } from './start-after-clock.ts'

/** Drawdown by Theis with image wells beside what piezometers show, at the clock and over time. */
export function DrawdownAnalysis() {
  const drawdown = createDrawdown()
  const { asked, found } = drawdown
  const zone = () => siteDocument()?.facts.timeZone ?? 'UTC'
  return (
    <Show
      when={drawdown.strata().length > 0}
      fallback={
        <p class="waiting">
          The records name no pumped well. Add wells.csv, pumping-rates.csv and aquifers.csv to the site
          folder.
        </p>
      }
    >
      <DrawdownFields drawdown={drawdown} />
      <For each={[...startAfterClock(drawdown.startEpochMs()), ...asked.remarks()]}>
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
              : drawdown.isFitting()
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

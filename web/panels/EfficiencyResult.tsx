import { For, Show } from 'solid-js'
import type { CalibrationList } from '#contract/calibration-draft.ts'
import type { Series } from '#contract/site-document.ts'
import { siteDocument } from '../state/site-document.ts'
import { formatShortInstant } from '../ui/format-instant.ts'
import { Figure } from '../views/figure/Figure.tsx'
import {
  type AirShareProposal,
  againstShareInForce,
  draftRefusal,
  proposeAirShare,
} from './air-share-draft.ts'
import type { AirTerm } from './air-term.ts'
import { efficiencyFigure } from './efficiency-figure.ts'
import type { EfficiencyOfHours } from './efficiency-of-hours.ts'
import { countedSentence, disturbances, efficiencyText, methodRows } from './efficiency-sentences.ts'

/** An interval that was asked about. */
export interface EfficiencyAsked {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  readonly series: { readonly level: Series; readonly barometer: Series; readonly rain: Series | null }
  readonly list: CalibrationList
  readonly term: AirTerm
}

/** What the readings of an interval say of the barometric efficiency, or why they say nothing. */
export function EfficiencyResult(props: {
  on: EfficiencyAsked
  of: EfficiencyOfHours
  zone: string
  propose: (proposal: AirShareProposal) => void
}) {
  const estimate = () => (props.of.outcome.ok ? props.of.outcome.value : null)
  const refusals = () => (props.of.outcome.ok ? [] : props.of.outcome.issues)
  const interval = () =>
    `${formatShortInstant(props.on.fromEpochMs, props.zone)} to ${formatShortInstant(props.on.untilEpochMs, props.zone)}`
  const moved = () =>
    disturbances(
      siteDocument()?.stages ?? [],
      siteDocument()?.diary ?? [],
      props.of.rainMm,
      props.on.fromEpochMs,
      props.on.untilEpochMs,
    )
  return (
    <section class="efficiency-result" aria-label={`Barometric efficiency, ${interval()}`}>
      <For each={refusals()}>
        {({ message }) => (
          <p class="trouble" role="status">
            No efficiency is given. {message}
          </p>
        )}
      </For>
      <Show when={estimate()}>
        {(known) => (
          <p class="trail-result" role="status">
            Barometric efficiency <strong>{efficiencyText(known())}</strong>, {interval()}
          </p>
        )}
      </Show>
      <p>{props.on.term.says}</p>
      <p>{countedSentence(props.of, estimate()?.changes.airMetres.length ?? null)}</p>
      <For each={estimate()?.cautions ?? []}>{(caution) => <p class="trouble">{caution}</p>}</For>
      <ul>
        <For each={moved()}>{(sentence) => <li>{sentence}</li>}</For>
      </ul>
      <Show when={estimate()}>
        {(known) => (
          <>
            <section class="scroll-across" aria-label="Methods, scrolls sideways" tabindex="0">
              <table class="plain">
                <caption>Four methods on the same readings</caption>
                <thead>
                  <tr>
                    <th scope="col">Method</th>
                    <th scope="col">Efficiency</th>
                    <th scope="col">What to know of it</th>
                  </tr>
                </thead>
                <tbody>
                  <For each={methodRows(known())}>
                    {([method, value, limits]) => (
                      <tr>
                        <th scope="row">{method}</th>
                        <td>{value}</td>
                        <td>{limits}</td>
                      </tr>
                    )}
                  </For>
                </tbody>
              </table>
            </section>
            <div class="efficiency-plot">
              <Figure
                shown={() => efficiencyFigure(known(), props.on.series.level.point, props.zone)}
                onChoose={() => undefined}
              />
            </div>
            <Show when={!props.on.term.openWell}>
              <p>{againstShareInForce(props.on.term, known())}</p>
            </Show>
            <Show
              when={draftRefusal(props.on.list, props.on.term, known())}
              fallback={
                <div class="buttons">
                  <button
                    type="button"
                    onClick={() =>
                      props.propose(
                        proposeAirShare(
                          known(),
                          props.on.series.barometer.point,
                          props.on.fromEpochMs,
                          props.on.untilEpochMs,
                          props.zone,
                        ),
                      )
                    }
                  >
                    Draft as barometric term
                  </button>
                </div>
              }
            >
              {(sentence) => <p class="waiting">{sentence()}</p>}
            </Show>
          </>
        )}
      </Show>
    </section>
  )
}

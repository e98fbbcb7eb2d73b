import { Show } from 'solid-js'
import type { PlacedInstrument, Series } from '#contract/site-document.ts'

/** What must be known of an instrument before its values are read. */
export function InstrumentFacts(props: { instrument: PlacedInstrument; series: Series | null }) {
  return (
    <dl class="facts">
      <div>
        <dt>Positive means</dt>
        <dd>{props.series?.positiveMeans ?? props.instrument.positiveMeans}</dd>
      </div>
      <Show when={props.instrument.axisBearingDegrees !== null}>
        <div>
          <dt>A-axis bearing</dt>
          <dd>{props.instrument.axisBearingDegrees}° from grid north</dd>
        </div>
      </Show>
      <Show when={props.instrument.grooveSentence}>
        {(sentence) => (
          <div>
            <dt>Grooves</dt>
            <dd>{sentence()}</dd>
          </div>
        )}
      </Show>
      <Show when={props.series?.venting}>
        {(venting) => (
          <div>
            <dt>Air pressure</dt>
            <dd classList={{ trouble: venting().airStandsInValues }}>{venting().sentence}</dd>
          </div>
        )}
      </Show>
      <Show when={props.instrument.fixedEnd}>
        <div>
          <dt>Fixed end</dt>
          <dd>{props.instrument.fixedEnd}</dd>
        </div>
      </Show>
      <Show when={props.instrument.critical}>
        <div>
          <dt>Critical</dt>
          <dd>Its silence must itself be noticed</dd>
        </div>
      </Show>
      <Show when={props.instrument.note}>
        <div>
          <dt>Note</dt>
          <dd>{props.instrument.note}</dd>
        </div>
      </Show>
    </dl>
  )
}

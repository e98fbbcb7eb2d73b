import { For, Show } from 'solid-js'
import type { RosterPreview } from '#contract/roster-text.ts'
import { siteDocument } from '../../state/site-document.ts'
import { formatInstant } from '../../ui/format-instant.ts'

const mostHoles = 8

/** What a changed roster would leave open, beside what is open now. */
export function RosterEffect(props: { preview: RosterPreview }) {
  const until = () => formatInstant(props.preview.untilEpochMs, siteDocument()?.facts.timeZone ?? 'UTC')
  return (
    <div class="verdict-covers" role="status" aria-label="Its effect">
      <p>
        {props.preview.rowsBefore} rows now, {props.preview.rowsAfter} with the change. Looked through until{' '}
        {until()}:
      </p>
      <ul>
        <For each={props.preview.duties}>
          {({ duty, holesBefore, holesAfter }) => (
            <li>
              {duty}: {holesAfter.length === 0 ? 'no hole' : `${holesAfter.length} holes`}, now{' '}
              {holesBefore.length === 0 ? 'none' : holesBefore.length}.
              <Show when={holesAfter.length > 0}>
                <ul class="trouble">
                  <For each={holesAfter.slice(0, mostHoles)}>{(sentence) => <li>{sentence}</li>}</For>
                  <Show when={holesAfter.length > mostHoles}>
                    <li>and {holesAfter.length - mostHoles} more.</li>
                  </Show>
                </ul>
              </Show>
            </li>
          )}
        </For>
      </ul>
    </div>
  )
}

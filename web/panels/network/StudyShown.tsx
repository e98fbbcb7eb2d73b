import { type JSX, Show } from 'solid-js'
import type { NetworkStudy } from '#domain/radio/network-study.ts'
import { networkStudy, networkTrouble } from '../../state/network-study.ts'

/** What was worked out of the network, or why it was not. */
export function StudyShown(props: { children: (study: () => NetworkStudy) => JSX.Element }) {
  return (
    <Show
      when={networkStudy()}
      fallback={
        <Show when={networkTrouble()} fallback={<p class="waiting">Radio links are being worked out …</p>}>
          {(sentence) => (
            <p class="trouble">
              No prediction: {sentence()} Tests made so far stand on the plan, layer Coverage tests, and in
              its key in words.
            </p>
          )}
        </Show>
      }
    >
      {(study) => props.children(study)}
    </Show>
  )
}

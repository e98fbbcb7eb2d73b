import { For, Show } from 'solid-js'
import type { TestedDelivery } from '#contract/alert-delivery.ts'

/** What became of a test, message by message. */
export function AttemptList(props: { tested: TestedDelivery | null }) {
  return (
    <Show when={props.tested}>
      {(tested) => (
        <ul class="attempts" role="status">
          <For each={tested().attempts}>
            {({ outcome, detail }) => (
              <li>
                <strong>{outcomeWords[outcome]}.</strong> {detail}
              </li>
            )}
          </For>
        </ul>
      )}
    </Show>
  )
}

const outcomeWords = {
  delivered: 'Handed over',
  failed: 'Not handed over',
  'not-set-up': 'Not set up',
} as const

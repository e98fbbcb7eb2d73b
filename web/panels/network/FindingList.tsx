import { For, Show } from 'solid-js'
import type { Finding } from '#domain/network/finding.ts'
import { siteLookup } from '../../state/site-document.ts'
import { showLogger } from './show-logger.ts'

/** Findings each with what to do; `none` is said where there are none, so that an empty list is not taken for calm. */
export function FindingList(props: { heading: string; none: string; findings: readonly Finding[] }) {
  return (
    <section class="network-findings">
      <h2>{props.heading}</h2>
      <Show when={props.findings.length > 0} fallback={<p>{props.none}</p>}>
        <ul>
          <For each={props.findings}>
            {({ subject, says, toDo }) => (
              <li>
                {says} <em>{toDo}</em>{' '}
                <Show when={subject !== null && siteLookup().pointById.has(subject)}>
                  <button type="button" onClick={() => showLogger(subject ?? '')}>
                    Show {subject}
                  </button>
                </Show>
              </li>
            )}
          </For>
        </ul>
      </Show>
    </section>
  )
}

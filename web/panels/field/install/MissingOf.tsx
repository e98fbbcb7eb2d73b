import { For } from 'solid-js'
import type { Issue } from '#domain/outcome.ts'

/** What is missing before an installation can be commissioned. */
export function MissingOf(props: { faults: readonly Issue[] }) {
  return (
    <details class="field-missing">
      <summary>
        {props.faults.length === 0
          ? 'Nothing is missing but a second person’s check'
          : `${props.faults.length} things are missing before it can be commissioned`}
      </summary>
      <ul>
        <For each={props.faults}>{(fault) => <li>{fault.message}</li>}</For>
      </ul>
    </details>
  )
}

import { For, Show } from 'solid-js'
import type { DraftParameters, SandboxDraft } from '#domain/what-if/sandbox-drafts.ts'
import { formatInstant } from '../../ui/format-instant.ts'

/** What would have to be recorded for the sandbox to become official. Nothing here records it. */
export function DraftList(props: { drafts: readonly SandboxDraft[]; zone: string }) {
  return (
    <details class="what-if-drafts">
      <summary>
        What would have to be recorded: {props.drafts.length} dated{' '}
        {props.drafts.length === 1 ? 'change' : 'changes'}
      </summary>
      <section class="scroll-across" aria-label="Dated changes, scroll sideways" tabindex="0">
        <table class="plain">
          <caption>Only what differs from the records; nothing of it is saved</caption>
          <thead>
            <tr>
              <th scope="col">Of</th>
              <th scope="col">From, until</th>
              <th scope="col">Now recorded</th>
              <th scope="col">In the sandbox</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.drafts}>
              {(draft) => (
                <tr>
                  <th scope="row">
                    {draft.subject} <small>{draft.kind}</small>
                  </th>
                  <td>
                    {formatInstant(draft.fromEpochMs, props.zone)}
                    <Show when={draft.untilEpochMs}>
                      {(until) => <>, until {formatInstant(until(), props.zone)}</>}
                    </Show>
                  </td>
                  <td>{parametersText(draft.old, draft.new)}</td>
                  <td>{parametersText(draft.new, draft.old)}</td>
                </tr>
              )}
            </For>
          </tbody>
        </table>
      </section>
    </details>
  )
}

/** Only what is another on the other side. */
function parametersText(own: DraftParameters, other: DraftParameters): string {
  const parts = Object.entries(own).flatMap(([name, value]) =>
    other[name] === value ? [] : [value === '' ? name : `${name} = ${value ?? 'none'}`],
  )
  return parts.length > 0 ? parts.join(', ') : 'not there'
}

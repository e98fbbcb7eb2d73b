import { For, Show } from 'solid-js'
import { contradictedVerdicts } from '../../state/contradicted-verdicts.ts'

/** Verdicts that could not be held against anything, each with why: nothing found of them is no sign that they are right. */
export function UnjudgedVerdicts() {
  return (
    <Show when={contradictedVerdicts()?.unjudged.length}>
      <ul class="verdicts-again" aria-label="Verdicts that could not be held against anything">
        <For each={contradictedVerdicts()?.unjudged}>
          {({ verdict, series, reason }) => (
            <li>
              <strong>
                {verdict}, {series}:
              </strong>{' '}
              {reason}
            </li>
          )}
        </For>
      </ul>
    </Show>
  )
}

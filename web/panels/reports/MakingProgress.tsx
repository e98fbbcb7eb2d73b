import { Show } from 'solid-js'
import type { Making } from './create-making.ts'

/** How far the making of a report is, and a button to stop it; what went wrong stands in its place. */
export function MakingProgress(props: { making: Making }) {
  return (
    <div class="report-progress" aria-live="polite">
      <Show when={props.making.at()}>
        {(at) => (
          <>
            <progress max="1" value={at().share} aria-label="Making the report" />
            <span>{at().sentence}</span>
            <button type="button" onClick={() => props.making.stop()}>
              Stop
            </button>
          </>
        )}
      </Show>
      <Show when={props.making.trouble()}>{(sentence) => <p class="trouble">{sentence()}</p>}</Show>
    </div>
  )
}

import { For } from 'solid-js'

/** What was wrong with the last attempt, a sentence each. */
export function Troubles(props: { sentences: readonly string[] }) {
  return (
    <For each={props.sentences}>
      {(sentence) => (
        <p class="trouble" role="alert">
          {sentence}
        </p>
      )}
    </For>
  )
}

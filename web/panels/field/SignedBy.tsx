import { Show } from 'solid-js'
import type { Signing } from './create-signing.ts'

/** The end of a form along the works: the name that signs it, the button that keeps it, and what became of it. */
export function SignedBy(props: { signing: Signing; keep: string }) {
  return (
    <>
      <label>
        Your name
        <input
          value={props.signing.author()}
          autocomplete="name"
          onInput={(event) => props.signing.setAuthor(event.currentTarget.value)}
        />
      </label>
      <button type="submit">{props.keep}</button>
      <Show when={props.signing.trouble()}>
        {(sentence) => (
          <p class="trouble" role="alert">
            {sentence()}
          </p>
        )}
      </Show>
      <Show when={props.signing.said()}>{(sentence) => <p role="status">{sentence()}</p>}</Show>
    </>
  )
}

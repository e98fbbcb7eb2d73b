import { type Component, createSignal, type JSX, Show } from 'solid-js'

/** Shows a part of the page whose code is fetched when it is first wanted; `failed` says when that failed. */
export function Later(props: {
  load: () => Promise<Component>
  waiting: string
  failed: (cause: unknown) => void
}) {
  const [part, setPart] = createSignal<Component | null>(null)
  // Once for the life of this component, whatever the properties become: reading them here is meant.
  props.load().then((loaded) => setPart(() => loaded), props.failed)
  return (
    <Show when={part()} fallback={<p class="waiting">{props.waiting}</p>}>
      {(loaded): JSX.Element => loaded()({})}
    </Show>
  )
}

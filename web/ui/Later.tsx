import { type Component, createSignal, type JSX, Show } from 'solid-js'
import { sync } from './sync.ts'

/** Shows a part of the page whose code is fetched when it is first wanted; `failed` says when that failed. */
export function Later(props: {
  load: () => Promise<Component>
  /** Fetched as soon as this is true. */
  when: boolean
  waiting: string
  failed: (cause: unknown) => void
}) {
  const [part, setPart] = createSignal<Component | null>(null)
  sync(
    () => props.when,
    (wanted) => {
      if (wanted && part() === null) props.load().then((loaded) => setPart(() => loaded), props.failed)
    },
  )
  return (
    <Show when={part()} fallback={<p class="waiting">{props.waiting}</p>}>
      {(loaded): JSX.Element => loaded()({})}
    </Show>
  )
}

import { createEffect, onCleanup, untrack } from 'solid-js'

/** Pushes state out to something imperative; `apply` may return a function that undoes it. */
export function sync<T>(compute: () => T, apply: (value: T) => unknown): void {
  createEffect(() => {
    const value = compute()
    const undo = untrack(() => apply(value))
    if (typeof undo === 'function') onCleanup(() => undo())
  })
}

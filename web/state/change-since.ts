import { createSignal } from 'solid-js'

const [changeFromEpochMs, setChangeFromEpochMs] = createSignal<number | null>(null)

/** Instant that the change layer counts from, UTC ms; null while none is chosen. */
export { changeFromEpochMs }

export function countChangeFrom(atEpochMs: number | null): void {
  setChangeFromEpochMs(atEpochMs)
}

import { createSignal } from 'solid-js'
import { clockEpochMs } from './site-clock.ts'

const usualLengthMs = 28 * 86_400_000

const [changeFromEpochMs, setChangeFromEpochMs] = createSignal<number | null>(null)

/** The chosen instant that the change layer counts from, UTC ms; null while none is chosen. */
export { changeFromEpochMs }

/** The instant that it does count from: the chosen one, else four weeks before the clock. */
export const changeSinceEpochMs = (): number => changeFromEpochMs() ?? (clockEpochMs() ?? 0) - usualLengthMs

export function countChangeFrom(atEpochMs: number | null): void {
  setChangeFromEpochMs(atEpochMs)
}

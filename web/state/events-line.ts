import { createSignal } from 'solid-js'

const [lostSince, setLostSince] = createSignal<number | null>(null)

/** Since when (this device's clock) changes are not told to this page as they happen; null: they are, or it is not known yet. */
export const eventsLostSinceEpochMs = lostSince

export function reportEventsLine(lostSinceEpochMs: number | null): void {
  setLostSince(lostSinceEpochMs)
}

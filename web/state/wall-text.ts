import { createSignal } from 'solid-js'

/**
 * Share of the screen's height that no text on a board is smaller than. Legible at five metres: a fortieth (common practice,
 * no published source), and a little more, so that rounding to pixels never goes below it.
 */
export const leastTextShare = 0.026

const [screenHeight, setScreenHeight] = createSignal(globalThis.innerHeight ?? 0)
globalThis.addEventListener?.('resize', () => setScreenHeight(globalThis.innerHeight))

/** The same for the screen as it is, CSS pixels. */
export const leastText = (): number => Math.ceil(leastTextShare * screenHeight())

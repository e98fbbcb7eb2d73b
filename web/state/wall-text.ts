import { createSignal } from 'solid-js'

/**
 * Of the screen's height: legible at five metres is a fortieth (common practice, no published source), and a little more, so
 * that rounding to pixels never goes below it. An upright screen is held in the hand: there its width is what counts.
 */
const [shareOfHeight, shareOfWidth] = [0.026, 0.023]

const sizeNow = () => [globalThis.innerWidth ?? 0, globalThis.innerHeight ?? 0] as const
const [screen, setScreen] = createSignal(sizeNow())
globalThis.addEventListener?.('resize', () => setScreen(sizeNow()))

/** No text on a board is smaller, CSS pixels of the screen as it is; `wall.css` has the same as the unit of a board. */
export const leastText = (): number => {
  const [width, height] = screen()
  return Math.ceil(Math.min(shareOfHeight * height, shareOfWidth * width))
}

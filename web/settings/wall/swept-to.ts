/** Where a finger went down or up. */
export interface TouchedAt {
  readonly x: number
  readonly y: number
  readonly atMs: number
}

const leastPixels = 60
const longestMs = 900

/** Which way a finger swept: to the left leads on, to the right back. Null: a tap, a slow drag, or across. */
export function sweptTo(from: TouchedAt, until: TouchedAt): 'on' | 'back' | null {
  const [right, down] = [until.x - from.x, until.y - from.y]
  if (until.atMs - from.atMs > longestMs) return null
  if (Math.abs(right) < leastPixels || Math.abs(right) < 2 * Math.abs(down)) return null
  return right < 0 ? 'on' : 'back'
}

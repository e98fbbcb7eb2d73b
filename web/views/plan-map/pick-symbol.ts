/** A symbol as it lies on the screen. */
export interface OnScreen {
  readonly id: string
  readonly x: number
  readonly y: number
}

export type Direction = 'left' | 'right' | 'up' | 'down'

/** The symbol nearest to a tap, within a radius; null when none is near. */
export function nearestSymbol(
  symbols: readonly OnScreen[],
  x: number,
  y: number,
  radiusPixels: number,
): string | null {
  let nearest: OnScreen | null = null
  let shortest = radiusPixels
  for (const symbol of symbols) {
    const distance = Math.hypot(symbol.x - x, symbol.y - y)
    // At equal distance the later one lies on top.
    if (distance <= shortest) {
      nearest = symbol
      shortest = distance
    }
  }
  return nearest?.id ?? null
}

/**
 * The next symbol in a direction: within 60° of it, near ones and straight ones first. From `from`, or from
 * the point given while nothing is selected.
 */
export function symbolTowards(
  symbols: readonly OnScreen[],
  from: { readonly id: string | null; readonly x: number; readonly y: number },
  direction: Direction,
): string | null {
  const [alongX, alongY] = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] }[direction] as [
    number,
    number,
  ]
  let best: { id: string; cost: number } | null = null
  for (const symbol of symbols) {
    if (symbol.id === from.id) continue
    const along = (symbol.x - from.x) * alongX + (symbol.y - from.y) * alongY
    const across = Math.abs((symbol.x - from.x) * alongY - (symbol.y - from.y) * alongX)
    if (along <= 0.5 || across > along * Math.sqrt(3)) continue
    const cost = along + 2 * across
    if (best === null || cost < best.cost) best = { id: symbol.id, cost }
  }
  return best?.id ?? null
}

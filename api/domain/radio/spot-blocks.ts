interface Spot {
  readonly logger: string | null
  readonly eastingMetres: number
  readonly northingMetres: number
}

/**
 * Groups of spots that must be left out together: of the same logger, or within a distance of one another by steps from
 * spot to spot. What close spots share (a wall beside them) would make a fit look better than it is elsewhere.
 */
export function blocksOfSpots<S extends Spot>(
  spots: readonly S[],
  withinMetres: number,
): readonly (readonly S[])[] {
  const waiting = new Set(spots)
  const blocks: S[][] = []
  for (const start of spots) {
    if (!waiting.delete(start)) continue
    const block = [start]
    for (let at = 0; at < block.length; at++) {
      const here = block[at] as S
      for (const other of waiting)
        if (belongTogether(here, other, withinMetres)) {
          waiting.delete(other)
          block.push(other)
        }
    }
    blocks.push(block)
  }
  return blocks
}

const belongTogether = (one: Spot, other: Spot, withinMetres: number) =>
  (one.logger !== null && one.logger === other.logger) ||
  Math.hypot(one.eastingMetres - other.eastingMetres, one.northingMetres - other.northingMetres) <=
    withinMetres

interface Placed {
  readonly eastingMetres: number
  readonly northingMetres: number
}

/** A position that could be a longitude and a latitude. */
export const couldBeDegrees = ({ eastingMetres, northingMetres }: Placed): boolean =>
  Math.abs(eastingMetres) <= 180 && Math.abs(northingMetres) <= 90

/**
 * True of positions that can hardly be metres: not all the same, all within 180 by 90 of nought and within 1 of the
 * first. A grid of the site's own may lie near its origin, but no site is smaller than a metre.
 */
export function lookLikeDegrees(positions: readonly Placed[]): boolean {
  const [first] = positions
  if (!first || !positions.every(couldBeDegrees)) return false
  const apart = positions.map(({ eastingMetres, northingMetres }) =>
    Math.hypot(eastingMetres - first.eastingMetres, northingMetres - first.northingMetres),
  )
  const most = Math.max(...apart)
  return most > 0 && most < 1
}

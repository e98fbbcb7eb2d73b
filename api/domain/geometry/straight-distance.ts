/** A place on the site's grid. */
export interface Place {
  readonly eastingMetres: number
  readonly northingMetres: number
}

/** Straight distance on the grid, metres. */
export const metresBetween = (one: Place, other: Place): number =>
  Math.hypot(one.eastingMetres - other.eastingMetres, one.northingMetres - other.northingMetres)

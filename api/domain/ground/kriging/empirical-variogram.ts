/** Of a class of distances: how many pairs, their mean distance and half their mean squared difference. */
export interface VariogramBin {
  readonly pairs: number
  /** Mean of the pairs, not the middle of the class. */
  readonly distanceMetres: number
  /** Unit of the value squared. */
  readonly semivariance: number
}

export interface PlacedValue {
  readonly east: number
  readonly north: number
  readonly value: number
}

/**
 * Half the mean squared difference of pairs by classes of distance (Matheron), up to a cutoff; empty classes are left
 * out. A pair at the upper limit belongs to the class; pairs at one place are not counted.
 */
export function empiricalVariogram(
  places: readonly PlacedValue[],
  widthMetres: number,
  cutoffMetres: number,
): readonly VariogramBin[] {
  const classes = Math.max(1, Math.ceil(cutoffMetres / widthMetres - 1e-9))
  const [pairs, distances, squares] = [0, 1, 2].map(() => new Float64Array(classes)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ]
  for (let one = 0; one < places.length; one++)
    for (let other = 0; other < one; other++) {
      const [a, b] = [places[one] as PlacedValue, places[other] as PlacedValue]
      const distance = Math.hypot(a.east - b.east, a.north - b.north)
      if (distance === 0 || distance > cutoffMetres) continue
      const at = Math.min(classes - 1, Math.ceil(distance / widthMetres) - 1)
      pairs[at] = (pairs[at] as number) + 1
      distances[at] = (distances[at] as number) + distance
      squares[at] = (squares[at] as number) + (a.value - b.value) ** 2
    }
  return Array.from(pairs, (count, at) => ({
    pairs: count,
    distanceMetres: (distances[at] as number) / count,
    semivariance: (squares[at] as number) / (2 * count),
  })).filter((bin) => bin.pairs > 0)
}

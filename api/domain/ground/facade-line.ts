/** A place on the site grid. */
export interface PlaceOnGrid {
  readonly eastingMetres: number
  readonly northingMetres: number
}

/** Distances along the straight line from the first place to the last, to the millimetre, and beside it; 0 where a place is not known. */
export function chainagesOfPlaces(
  places: readonly (PlaceOnGrid | null)[],
): readonly { readonly along: number; readonly beside: number }[] {
  const [first, last] = [places[0], places.at(-1)]
  const [east, north] =
    first && last
      ? [last.eastingMetres - first.eastingMetres, last.northingMetres - first.northingMetres]
      : [0, 0]
  const length = Math.hypot(east, north)
  return places.map((place) => {
    if (!place || !first || length === 0) return { along: 0, beside: 0 }
    const [e, n] = [place.eastingMetres - first.eastingMetres, place.northingMetres - first.northingMetres]
    return {
      along: Math.round(((e * east + n * north) / length) * 1000) / 1000,
      beside: Math.abs(e * north - n * east) / length,
    }
  })
}

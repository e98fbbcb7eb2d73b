/** A place on the site grid. */
export interface Stop {
  readonly id: string
  readonly eastingMetres: number
  readonly northingMetres: number
}

/**
 * Places in the order of a walk: always on to the nearest not yet seen, beginning at the westernmost. Not the shortest walk,
 * but one that does not cross the works again and again. In straight lines: walls and fences are not known.
 */
export function walkingOrder(stops: readonly Stop[]): readonly string[] {
  const left = [...stops].sort(
    (one, other) => one.eastingMetres - other.eastingMetres || one.id.localeCompare(other.id),
  )
  const walk: string[] = []
  let here = left.shift()
  while (here) {
    walk.push(here.id)
    const from = here
    const away = (stop: Stop) =>
      Math.hypot(stop.eastingMetres - from.eastingMetres, stop.northingMetres - from.northingMetres)
    left.sort((one, other) => away(one) - away(other) || one.id.localeCompare(other.id))
    here = left.shift()
  }
  return walk
}

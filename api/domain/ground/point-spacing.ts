/** Middle value of the distances of points to their nearest neighbour, metres; points at one place count once, null with fewer than two. */
export function typicalSpacingMetres(
  points: readonly { readonly eastingMetres: number; readonly northingMetres: number }[],
): number | null {
  const atOnePlaceMetres = 0.01
  const nearest = points.flatMap((one) => {
    let least = Number.POSITIVE_INFINITY
    for (const other of points) {
      const metres = Math.hypot(
        one.eastingMetres - other.eastingMetres,
        one.northingMetres - other.northingMetres,
      )
      if (metres > atOnePlaceMetres && metres < least) least = metres
    }
    return Number.isFinite(least) ? [least] : []
  })
  const ordered = nearest.toSorted((one, other) => one - other)
  return ordered[ordered.length >> 1] ?? null
}

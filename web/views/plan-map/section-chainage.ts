import type { SitePoint } from '#domain/geometry/site-grid.ts'

/** Length of a line of corners, metres. */
export function lineLengthMetres(corners: readonly SitePoint[]): number {
  let length = 0
  corners.forEach((corner, place) => {
    const before = corners[place - 1]
    if (before) length += Math.hypot(corner[0] - before[0], corner[1] - before[1])
  })
  return length
}

/** Points along a line at round chainages, first and last corner included, at most about ten between. */
export function chainageMarks(
  corners: readonly SitePoint[],
  spacingMetres: number,
): readonly { readonly at: SitePoint; readonly chainageMetres: number }[] {
  const marks: { at: SitePoint; chainageMetres: number }[] = []
  let travelled = 0
  let next = 0
  corners.forEach((corner, place) => {
    const before = corners[place - 1]
    if (!before) return
    const length = Math.hypot(corner[0] - before[0], corner[1] - before[1])
    while (next <= travelled + length) {
      const share = length === 0 ? 0 : (next - travelled) / length
      const at: SitePoint = [
        before[0] + share * (corner[0] - before[0]),
        before[1] + share * (corner[1] - before[1]),
      ]
      marks.push({ at, chainageMetres: next })
      next += spacingMetres
    }
    travelled += length
  })
  return marks
}

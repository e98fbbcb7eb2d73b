import type { SitePoint } from '../geometry/site-grid.ts'

interface Piece {
  readonly from: SitePoint
  readonly to: SitePoint
}

/** Asks whether a barrier stands between two points; a barrier that only touches the way parts them too. */
export function barrierBetween(
  barriers: readonly (readonly SitePoint[])[],
): (one: SitePoint, other: SitePoint) => boolean {
  const pieces = barriers.flatMap((line) =>
    line.slice(1).map((to, place): Piece => ({ from: line[place] as SitePoint, to })),
  )
  return (one, other) => pieces.some((piece) => meets(one, other, piece))
}

function meets(one: SitePoint, other: SitePoint, { from, to }: Piece): boolean {
  if (apart(one[0], other[0], from[0], to[0]) || apart(one[1], other[1], from[1], to[1])) return false
  return (
    sideOf(one, other, from) * sideOf(one, other, to) <= 0 &&
    sideOf(from, to, one) * sideOf(from, to, other) <= 0
  )
}

const apart = (a: number, b: number, c: number, d: number) =>
  Math.max(a, b) < Math.min(c, d) || Math.max(c, d) < Math.min(a, b)

const sideOf = (from: SitePoint, to: SitePoint, point: SitePoint): number =>
  Math.sign((to[0] - from[0]) * (point[1] - from[1]) - (to[1] - from[1]) * (point[0] - from[0]))

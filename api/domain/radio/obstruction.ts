import type { SitePoint } from '../geometry/site-grid.ts'

/** Something that stands in the way of radio waves: a ring of corners (first and last alike) or a line, with its top. */
export interface Obstruction {
  readonly id: string
  readonly name: string
  readonly outline: readonly SitePoint[]
  readonly topLevelMetres: number
  /** Null: from before anything was recorded, or without an end. */
  readonly fromEpochMs: number | null
  readonly untilEpochMs: number | null
}

export const standsAt = (
  { fromEpochMs, untilEpochMs }: Pick<Obstruction, 'fromEpochMs' | 'untilEpochMs'>,
  atEpochMs: number,
): boolean =>
  (fromEpochMs === null || atEpochMs >= fromEpochMs) && (untilEpochMs === null || atEpochMs < untilEpochMs)

/** Shares (0 to 1) of the straight way from one point to another at which it meets an outline, in order. */
export function crossingsOf(
  from: SitePoint,
  to: SitePoint,
  outline: readonly SitePoint[],
): readonly number[] {
  const [east, north] = [to[0] - from[0], to[1] - from[1]]
  return outline
    .slice(1)
    .flatMap((end, place) => {
      const start = outline[place] as SitePoint
      const [alongEast, alongNorth] = [end[0] - start[0], end[1] - start[1]]
      const across = east * alongNorth - north * alongEast
      if (across === 0) return []
      const [offEast, offNorth] = [start[0] - from[0], start[1] - from[1]]
      const share = (offEast * alongNorth - offNorth * alongEast) / across
      const placeOnSide = (offEast * north - offNorth * east) / across
      return share >= 0 && share <= 1 && placeOnSide >= 0 && placeOnSide <= 1 ? [share] : []
    })
    .toSorted((one, other) => one - other)
}

/** True inside a closed ring; a line has no inside. */
export function isInside(point: SitePoint, outline: readonly SitePoint[]): boolean {
  const [first, last] = [outline[0], outline.at(-1)]
  if (!first || !last || first[0] !== last[0] || first[1] !== last[1]) return false
  let inside = false
  outline.slice(1).forEach((end, place) => {
    const start = outline[place] as SitePoint
    if (end[1] > point[1] === start[1] > point[1]) return
    const east = start[0] + ((point[1] - start[1]) / (end[1] - start[1])) * (end[0] - start[0])
    if (point[0] < east) inside = !inside
  })
  return inside
}

import type { SitePoint } from '../geometry/site-grid.ts'
import type { DeviationGrid } from './kriging/kriged-surface.ts'

/** A piece of a contour line, and whether it can be told from one half a step away. */
export interface ContourPiece {
  readonly level: number
  readonly points: readonly SitePoint[]
  readonly certain: boolean
}

/**
 * A contour line cut where the standard deviation of the surface passes a limit: beyond it the line could as well run
 * elsewhere. Pieces share their end points; by the nearest node of the grid.
 */
export function uncertainPieces(
  line: readonly SitePoint[],
  level: number,
  grid: DeviationGrid,
  limit: number,
): readonly ContourPiece[] {
  const pieces: { level: number; points: SitePoint[]; certain: boolean }[] = []
  line.forEach((point, place) => {
    const certain = deviationNear(grid, point) <= limit
    const last = pieces.at(-1)
    if (last?.certain === certain) last.points.push(point)
    else {
      const before = line[place - 1]
      pieces.push({ level, certain, points: before === undefined ? [point] : [before, point] })
    }
  })
  return pieces.filter(({ points }) => points.length > 1)
}

function deviationNear(
  { origin, cellMetres, columns, rows, standardDeviations }: DeviationGrid,
  [east, north]: SitePoint,
): number {
  const column = Math.min(columns - 1, Math.max(0, Math.round((east - origin[0]) / cellMetres)))
  const row = Math.min(rows - 1, Math.max(0, Math.round((north - origin[1]) / cellMetres)))
  const found = standardDeviations[row * columns + column] as number
  return Number.isFinite(found) ? found : Number.POSITIVE_INFINITY
}

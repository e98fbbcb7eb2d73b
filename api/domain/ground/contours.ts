import type { SitePoint } from '../geometry/site-grid.ts'
import { roundTicks } from '../statistics/round-ticks.ts'
import { contourBands } from './contour-bands.ts'
import { levelLines } from './level-lines.ts'
import type { SettlementSurface, SurfaceMesh } from './settlement-surface.ts'

export interface ContourLine {
  readonly levelMm: number
  /** The lower side lies on the right (on both, where a ridge runs at the level). A closed line repeats its first point. */
  readonly points: readonly SitePoint[]
  /** False: both ends lie on the edge of the mask. */
  readonly closed: boolean
}

export interface ContourBand {
  readonly lowMm: number
  readonly highMm: number
  /** Outer ring first, counter-clockwise, then its holes, clockwise; rings repeat their first point. */
  readonly polygons: readonly (readonly (readonly SitePoint[])[])[]
}

export interface Contours
  extends Pick<
    SettlementSurface,
    'method' | 'parameters' | 'pointsUsed' | 'pointsLeftOut' | 'pointsMerged' | 'mask'
  > {
  readonly levelsMm: readonly number[]
  readonly lines: readonly ContourLine[]
  /** From the lowest up; together they cover the mask once. */
  readonly bands: readonly ContourBand[]
}

/** Round levels strictly between two values, in steps of 1, 2 or 5 times a power of ten, at most `atMost`. */
export function contourLevels(lowMm: number, highMm: number, atMost = 12): readonly number[] {
  if (!(highMm - lowMm > 1e-9 * Math.max(Math.abs(lowMm), Math.abs(highMm)))) return []
  return roundTicks(lowMm, highMm, atMost).filter((level) => level > lowMm && level < highMm)
}

/**
 * Exact level lines and filled bands of a linear surface (marching triangles). A node exactly at a level counts as
 * above it, so that every line ends on the edge of the mask or closes. Levels must rise.
 */
export function drawContours(
  surface: SettlementSurface,
  levelsMm: readonly number[] = contourLevels(surface.lowestMm, surface.highestMm),
): Contours {
  const { mesh, method, parameters, pointsUsed, pointsLeftOut, pointsMerged, mask } = surface
  return {
    method,
    parameters,
    pointsUsed,
    pointsLeftOut,
    pointsMerged,
    mask,
    levelsMm,
    ...meshContours(mesh, surface.lowestMm, surface.highestMm, levelsMm),
  }
}

/** Lines and bands of a mesh, of whatever unit its values are; they agree exactly with each other. */
export function meshContours(
  mesh: SurfaceMesh,
  lowest: number,
  highest: number,
  levels: readonly number[],
): Pick<Contours, 'lines' | 'bands'> {
  const lines = levelLines(mesh, levels)
  return {
    lines: lines.flatMap((own, index) =>
      own.map(({ points, closed }) => ({ levelMm: levels[index] as number, points, closed })),
    ),
    bands: contourBands(mesh, levels, lines, lowest, highest),
  }
}

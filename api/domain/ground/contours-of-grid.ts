import { type Contours, contourLevels, meshContours } from './contours.ts'
import { gridMesh } from './grid-mesh.ts'
import type { GroundSurface } from './ground-surface.ts'
import { outlineOf, type SurfaceMesh } from './settlement-surface.ts'
import { surfaceVolume } from './surface-volume.ts'
import type { ValueGrid } from './value-grid.ts'
import { slopesOf, steepestOf } from './volumes/steepest-slope.ts'

type Gridded = Pick<Contours, 'method' | 'pointsUsed' | 'pointsLeftOut' | 'pointsMerged'> & {
  readonly grid: ValueGrid
}

/** Lines, bands, outline, volume and steepest place of a grid; levels at multiples of a step, or round ones. */
export function contoursOfGrid({ grid, ...rest }: Gridded, step: number | null) {
  const mesh = gridMesh(grid)
  let [lowestMm, highestMm] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (const node of mesh.triangles) {
    lowestMm = Math.min(lowestMm, mesh.valueMm[node] as number)
    highestMm = Math.max(highestMm, mesh.valueMm[node] as number)
  }
  const levels = step === null ? contourLevels(lowestMm, highestMm) : levelsOf(lowestMm, highestMm, step)
  const { lines, bands } = meshContours(mesh, lowestMm, highestMm, levels)
  return {
    method: rest.method,
    pointsUsed: rest.pointsUsed,
    pointsLeftOut: rest.pointsLeftOut,
    pointsMerged: rest.pointsMerged,
    mask: outlineOf(mesh),
    levelsMm: levels,
    bands,
    ...shapeOfMesh(mesh),
    lines: lines.map(({ levelMm, points }) => ({ level: levelMm, points, certain: true })),
  }
}

function levelsOf(lowest: number, highest: number, step: number): readonly number[] {
  const levels: number[] = []
  for (let at = Math.floor(lowest / step) + 1; at * step < highest; at++)
    levels.push(Number((at * step).toPrecision(12)))
  return levels
}

/** What is under a surface and where it is steepest. */
export function shapeOfMesh(mesh: SurfaceMesh): Pick<GroundSurface, 'volume' | 'steepest'> {
  const piece = steepestOf(slopesOf(mesh))
  return {
    volume: surfaceVolume(mesh, 0),
    steepest: piece && {
      place: [mesh.origin[0] + piece.eastMetres, mesh.origin[1] + piece.northMetres],
      perMetre: piece.slopeMmPerM,
    },
  }
}

import type { SitePoint } from '../geometry/site-grid.ts'
import { barrierBetween } from './barrier-between.ts'
import { type Contours, contourLevels, meshContours } from './contours.ts'
import { gridMesh } from './grid-mesh.ts'
import { angularDistortionGrid, placeOfNode, slopeGrid } from './grid-slope.ts'
import { hatchLines } from './hatch-lines.ts'
import { outlineOf } from './settlement-surface.ts'
import { guidanceOf, type SlopeGuidance } from './slope-guidance.ts'
import type { SlopeAspect } from './surface-aspects.ts'
import type { SurfaceField } from './surface-field.ts'
import { uncertainPieces } from './uncertain-pieces.ts'

/** Slope or angular distortion of a surface in mm, in mm per metre, where it can be told. */
export interface SlopeMap {
  readonly aspect: SlopeAspect
  /** Length over which a slope is taken, or of each of the two bays of a distortion. */
  readonly overMetres: number
  readonly bands: Contours['bands']
  readonly lines: readonly {
    readonly level: number
    readonly points: readonly SitePoint[]
    readonly certain: boolean
  }[]
  readonly outline: readonly (readonly SitePoint[])[]
  /** Strokes over the part of the surface whose slope cannot be told. */
  readonly hatches: readonly (readonly [SitePoint, SitePoint])[]
  /** Area of each band, from the lowest up, and of what is not told. */
  readonly areas: readonly { readonly low: number; readonly high: number; readonly squareMetres: number }[]
  readonly untoldSquareMetres: number
  /** Null where nothing is told. */
  readonly steepest: {
    readonly place: SitePoint
    readonly mmPerMetre: number
    readonly standardError: number | null
  } | null
  readonly guidance: readonly SlopeGuidance[]
  /** Whole sentences. */
  readonly notes: readonly string[]
}

/**
 * Slope over one spacing of the points, or angular distortion of two bays of that length. A standard error is that of a
 * difference of two (slope) or of three (distortion) values of the surface with its standard deviation there, taken as
 * if they erred independently over one spacing. What is less than its standard error is not drawn; lines are dashed
 * where it is less than twice that, and where the method states no deviation. Nothing is compared across a barrier.
 */
export function slopeMap(
  { grid, standardDeviations, slopeErrors }: SurfaceField,
  aspect: SlopeAspect,
  spacingMetres: number,
  barriers: readonly (readonly SitePoint[])[],
): SlopeMap {
  const { cellMetres } = grid
  const parted = barriers.length === 0 ? null : barrierBetween(barriers)
  const reach = Math.max(1, Math.round(spacingMetres / 2 / cellMetres))
  const bayMetres = Math.max(1, Math.round(spacingMetres / cellMetres)) * cellMetres
  const overMetres = aspect === 'slope' ? 2 * reach * cellMetres : bayMetres
  const slopes =
    aspect === 'slope' ? slopeGrid(grid, reach, parted) : angularDistortionGrid(grid, bayMetres, parted)
  const errors =
    standardDeviations?.map((deviation, node) =>
      aspect === 'slope'
        ? Math.max((Math.SQRT2 * deviation) / overMetres, slopeErrors?.[node] ?? 0)
        : (Math.sqrt(6) * deviation) / (2 * overMetres),
    ) ?? null
  const isTold = (node: number) => {
    const [slope, error] = [slopes[node] as number, errors === null ? 0 : (errors[node] as number)]
    return grid.mask[node] === 0 && Number.isFinite(slope) && !(slope < error)
  }
  const mask = grid.mask.map((code, node) => (code !== 0 ? code : isTold(node) ? 0 : 6))
  // The edge is that of the surface: it knows nothing of where slopes are not told.
  const { edge: _, ...place } = grid
  const told = { ...place, values: slopes, mask }
  const mesh = gridMesh(told)
  let [lowest, highest, steepest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, -1]
  for (const node of mesh.triangles) {
    const slope = slopes[node] as number
    lowest = Math.min(lowest, slope)
    if (slope > highest) steepest = node
    highest = Math.max(highest, slope)
  }
  const levels = steepest < 0 ? [] : contourLevels(lowest, highest, 6)
  const { lines, bands } = meshContours(mesh, lowest, highest, levels)
  const cellArea = cellMetres ** 2
  const nodesWhere = (wanted: (node: number) => boolean) =>
    slopes.reduce((sum, _, node) => sum + (wanted(node) ? 1 : 0), 0)
  const isIn = (low: number, high: number) => (node: number) =>
    mask[node] === 0 && (slopes[node] as number) >= low && (slopes[node] as number) < high
  const steepestError = errors?.[steepest]
  return {
    aspect,
    overMetres,
    bands,
    outline: outlineOf(mesh),
    lines: lines.flatMap(({ levelMm, points }) =>
      errors === null
        ? [{ level: levelMm, points, certain: false }]
        : uncertainPieces(points, levelMm, { ...told, standardDeviations: errors }, levelMm / 2),
    ),
    hatches: hatchLines(grid, (node) => mask[node] === 6, 4),
    areas: (steepest < 0 ? [] : [Number.NEGATIVE_INFINITY, ...levels]).map((low, at) => {
      const high = levels[at] ?? Number.POSITIVE_INFINITY
      return {
        low: Math.max(low, lowest),
        high: Math.min(high, highest),
        squareMetres: nodesWhere(isIn(low, high)) * cellArea,
      }
    }),
    untoldSquareMetres: nodesWhere((node) => mask[node] === 6) * cellArea,
    steepest:
      steepest < 0
        ? null
        : {
            place: placeOfNode(grid, steepest),
            mmPerMetre: highest,
            standardError: steepestError === undefined || Number.isNaN(steepestError) ? null : steepestError,
          },
    guidance: guidanceOf(aspect).map((one) => ({
      ...one,
      squareMetres: nodesWhere(isIn(1000 / one.oneIn, Number.POSITIVE_INFINITY)) * cellArea,
    })),
    notes: notesOf(aspect, overMetres, spacingMetres, errors !== null, barriers.length),
  }
}

function notesOf(
  aspect: SlopeAspect,
  overMetres: number,
  spacingMetres: number,
  hasErrors: boolean,
  barriers: number,
): readonly string[] {
  const [length, spacing] = [overMetres, spacingMetres].map((one) => `${Number(one.toPrecision(2))} m`)
  return [
    aspect === 'slope'
      ? `Slope over ${length}; neighbouring points typically stand ${spacing} apart, and steeper may lie between them.`
      : `Angular distortion of the ground: slope of a bay of ${length} less the tilt of the two bays beside each other, the greatest of four directions (Burland and Wroth 1974). Neighbouring points typically stand ${spacing} apart: what bends over less is not seen.`,
    hasErrors
      ? 'Hatched: less than its standard error, or no neighbour to compare with; that is not known, not level. Lines are dashed where it is less than twice its standard error. The error is of values that err independently over that length; neighbours mostly err alike, which makes it the wide side, but this is not proved for every place.'
      : 'Hatched: no neighbour to compare with. The method states no deviation, so it is not known where this is told from none: all lines are dashed.',
    ...(barriers > 0 ? ['Nothing is compared across a barrier.'] : []),
  ]
}

import type { SitePoint } from '../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import { type ContourStep, contourStep } from './contour-step.ts'
import { type Contours, contourLevels, drawContours, meshContours } from './contours.ts'
import { gridMesh } from './grid-mesh.ts'
import { interpolatedGrid } from './interpolated-grid.ts'
import { type GroundPoint, reasonToLeaveOut } from './kriging/ground-point.ts'
import { type KrigedSurface, krigedSurface } from './kriging/kriged-surface.ts'
import type { VariogramShape } from './kriging/variogram-shape.ts'
import { buildSettlementSurface, outlineOf, type SurfaceMesh } from './settlement-surface.ts'
import { surfaceAt } from './surface-at.ts'
import { fieldOfMesh, type SurfaceField } from './surface-field.ts'
import type { SurfaceMethod } from './surface-methods.ts'
import { alongLine, type SurfaceOnLine, sectionOfGrid } from './surface-on-line.ts'
import { type SurfaceVolume, surfaceVolume } from './surface-volume.ts'
import { uncertainPieces } from './uncertain-pieces.ts'
import { gridOver, type ValueGrid } from './value-grid.ts'
import { slopesOf, steepestOf } from './volumes/steepest-slope.ts'

export interface SurfaceRequest {
  readonly points: readonly GroundPoint[]
  readonly unit: string
  readonly method: SurfaceMethod
  readonly barriers: readonly (readonly SitePoint[])[]
  /** Straight lines between points: none is longer. */
  readonly longestSideMetres: number
  /** Kriging: around a point without a current value nothing is shown. */
  readonly silentRadiusMetres: number
  /** Nodes of the grid across the longer side. */
  readonly nodes: number
  /** A line along which the surface is cut; empty: none. */
  readonly sectionLine: readonly SitePoint[]
}

/** A surface as it is drawn, whatever made it; values in the unit of the request. */
export interface GroundSurface extends Omit<Contours, 'parameters' | 'lines'> {
  readonly unit: string
  readonly lines: readonly {
    readonly level: number
    readonly points: readonly SitePoint[]
    /** False: it may as well run half a step farther away, by the standard deviation there. */
    readonly certain: boolean
  }[]
  readonly step: ContourStep | null
  /** Least and most of the standard deviation where the surface is shown; null where the method states none. */
  readonly deviation: { readonly least: number; readonly most: number } | null
  /** Whole sentences. */
  readonly notes: readonly string[]
  /** Kriging: how the points bear one another out; null for other methods. */
  readonly check: KrigedSurface['check']
  /** Between the surface and nought, in its unit times m² (mm·m² are litres). */
  readonly volume: SurfaceVolume
  /** Where it is steepest; null where nothing is shown. The slope is a mean over a piece: steeper may lie within it. */
  readonly steepest: { readonly place: SitePoint; readonly perMetre: number } | null
  readonly section: readonly SurfaceOnLine[]
}

/** With its values at the nodes of a grid, worked out when asked for. */
export interface SurfaceWithField extends GroundSurface {
  readonly field: () => SurfaceField
}

/**
 * Contours of a surface through points. Kriging that is refused (a variogram that cannot be fitted, say) is not replaced in
 * silence: straight lines between points are drawn with the reason first, or refused themselves.
 */
export function groundSurface(request: SurfaceRequest): Outcome<SurfaceWithField> {
  if (request.method === 'linear') return linearSurface(request, [])
  if (request.method === 'kriging') {
    const kriged = krigedSurface(request.points, {
      unit: request.unit,
      drift: 'ordinary',
      // Read far apart, points show a nugget that is only the curve drawn on to distance 0, and a narrow bowl is drawn too
      // shallow by it.
      variogram: { shapes: shapesFor(request.points), anisotropy: null, groundNugget: 'none' },
      barriers: request.barriers,
      grid: request.nodes,
      silentRadiusMetres: request.silentRadiusMetres,
      greatestDeviation: greatestDeviation(request.points),
    })
    if (kriged.ok) return accept(ofKriging(kriged.value, request))
    const reasons = kriged.issues.map(({ message }) => message).join(' ')
    return linearSurface(request, [`No kriging: ${reasons}`])
  }
  const how = request.method === 'natural-neighbours' ? 'natural neighbours' : 'inverse distance'
  const made = interpolatedGrid(request.points, how, gridOfPoints(request), request.unit)
  if (!made.ok) return made
  const { grid, ...rest } = made.value
  const shown = withoutSilent(grid, request)
  const contours = drawn({ ...rest, grid: shown }, null)
  return accept({
    field: () => ({ grid: shown, standardDeviations: null }),
    ...contours,
    // Nothing says how far these lines may run elsewhere, so none is drawn as if that were known.
    lines: contours.lines.map((line) => ({ ...line, certain: false })),
    section: sectionOfGrid(shown, null, request.sectionLine),
    unit: request.unit,
    step: null,
    deviation: null,
    notes: [
      'The method states no deviation, so all its lines are dashed.',
      ...(request.barriers.length > 0
        ? ['Barriers are not heeded by this method: it is drawn across walls.']
        : []),
    ],
    check: null,
  })
}

/** The grid with nothing shown around points without a current value. */
function withoutSilent(grid: ValueGrid, { points, silentRadiusMetres }: SurfaceRequest): ValueGrid {
  const silent = points.filter(
    (point) =>
      reasonToLeaveOut(point) !== null &&
      Number.isFinite(point.eastingMetres) &&
      Number.isFinite(point.northingMetres),
  )
  if (silent.length === 0) return grid
  const { origin, cellMetres, columns } = grid
  const mask = grid.mask.map((code, node) => {
    if (code !== 0) return code
    const column = node % columns
    const east = origin[0] + column * cellMetres
    const north = origin[1] + ((node - column) / columns) * cellMetres
    return silent.some(
      (one) => Math.hypot(one.eastingMetres - east, one.northingMetres - north) <= silentRadiusMetres,
    )
      ? 2
      : 0
  })
  return { ...grid, mask }
}

/** The smoothest shape cannot be solved through exact readings; with errors of their own it can. */
const shapesFor = (points: readonly GroundPoint[]): readonly VariogramShape[] =>
  points.every(({ standardUncertainty }) => (standardUncertainty ?? 0) > 0)
    ? ['spherical', 'exponential', 'gaussian']
    : ['spherical', 'exponential']

/** Where the deviation is above seven tenths of the spread of the readings, the points tell little of the ground. */
export function greatestDeviation(points: readonly GroundPoint[]): number | null {
  const values = points.flatMap(({ value, late }) =>
    value === null || late || !Number.isFinite(value) ? [] : [value],
  )
  if (values.length < 3) return null
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length
  const spread = Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1))
  return spread > 0 ? 0.7 * spread : null
}

function ofKriging(kriged: KrigedSurface, { unit, points, sectionLine }: SurfaceRequest): SurfaceWithField {
  const { grid, lowest, highest, notes } = kriged
  const shown = [...grid.standardDeviations.keys()].flatMap((node) =>
    grid.mask[node] === 0 ? [grid.standardDeviations[node] as number] : [],
  )
  const ordered = Float64Array.from(shown).sort()
  const typical = ordered[ordered.length >> 1] ?? 0
  const step = Number.isFinite(lowest) ? contourStep(lowest, highest, typical, unit) : null
  const limit = greatestDeviation(points)
  const contours = drawn(kriged, step?.step ?? null)
  return {
    field: () => ({ grid, standardDeviations: grid.standardDeviations }),
    ...contours,
    section: sectionOfGrid(grid, grid.standardDeviations, sectionLine),
    unit,
    lines: contours.lines.flatMap(({ level, points: line }) =>
      step === null
        ? [{ level, points: line, certain: false }]
        : uncertainPieces(line, level, grid, step.step / 2),
    ),
    step,
    deviation: ordered.length === 0 ? null : { least: ordered[0] as number, most: ordered.at(-1) as number },
    notes: [
      ...notes,
      ...(step === null && Number.isFinite(lowest)
        ? [
            `The surface is flat within twice its typical standard deviation, ${Number(typical.toPrecision(2))} ${unit}: no contour can be told.`,
          ]
        : []),
      ...(limit === null
        ? []
        : [
            `Nothing is shown where the standard deviation is above ${Number(limit.toPrecision(2))} ${unit}.`,
          ]),
    ],
    check: kriged.check,
  }
}

function linearSurface(
  { points, unit, barriers, longestSideMetres, sectionLine, nodes }: SurfaceRequest,
  notes: readonly string[],
): Outcome<SurfaceWithField> {
  const surface = buildSettlementSurface(
    points.map(({ value, standardUncertainty, ...rest }) => ({
      ...rest,
      valueMm: value,
      standardUncertaintyMm: standardUncertainty,
    })),
    { barriers, longestSideMetres },
  )
  if (!surface.ok)
    return reject(
      ...surface.issues.map((issue) => ({ ...issue, message: [...notes, issue.message].join(' ') })),
    )
  const { parameters: _, ...contours } = drawContours(surface.value)
  return accept({
    field: () => fieldOfMesh(surface.value.mesh, nodes),
    ...contours,
    ...shapeOf(surface.value.mesh),
    section: alongLine(sectionLine, (point) => {
      const at = surfaceAt(surface.value, point)
      return { value: at?.valueMm ?? null, standardDeviation: at?.standardUncertaintyMm ?? null }
    }),
    unit,
    lines: contours.lines.map(({ levelMm, points: line }) => ({
      level: levelMm,
      points: line,
      certain: true,
    })),
    step: null,
    deviation: null,
    notes: notes.length === 0 ? [] : [...notes, 'Straight lines between points are drawn instead.'],
    check: null,
  })
}

type Gridded = Pick<Contours, 'method' | 'pointsUsed' | 'pointsLeftOut' | 'pointsMerged'> & {
  readonly grid: ValueGrid
}

function drawn({ grid, ...rest }: Gridded, step: number | null) {
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
    ...shapeOf(mesh),
    lines: lines.map(({ levelMm, points }) => ({ level: levelMm, points, certain: true })),
  }
}

function shapeOf(mesh: SurfaceMesh): Pick<GroundSurface, 'volume' | 'steepest'> {
  const piece = steepestOf(slopesOf(mesh))
  return {
    volume: surfaceVolume(mesh, 0),
    steepest: piece && {
      place: [mesh.origin[0] + piece.eastMetres, mesh.origin[1] + piece.northMetres],
      perMetre: piece.slopeMmPerM,
    },
  }
}

function levelsOf(lowest: number, highest: number, step: number): readonly number[] {
  const levels: number[] = []
  for (let at = Math.floor(lowest / step) + 1; at * step < highest; at++)
    levels.push(Number((at * step).toPrecision(12)))
  return levels
}

function gridOfPoints({ points, nodes }: SurfaceRequest) {
  const placed = points.filter(
    ({ eastingMetres, northingMetres, value }) =>
      Number.isFinite(eastingMetres) && Number.isFinite(northingMetres) && value !== null,
  )
  const [east, north] = [
    placed.map(({ eastingMetres }) => eastingMetres),
    placed.map(({ northingMetres }) => northingMetres),
  ]
  return gridOver(
    { low: [Math.min(...east), Math.min(...north)], high: [Math.max(...east), Math.max(...north)] },
    nodes,
  )
}

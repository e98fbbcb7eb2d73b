import { lookLikeDegrees } from '../geometry/look-like-degrees.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import { drawContours } from './contours.ts'
import { shapeOfMesh } from './contours-of-grid.ts'
import type { SurfaceRequest, SurfaceWithField } from './ground-surface.ts'
import { positionsInDegrees } from './kriging/places-of-points.ts'
import { buildSettlementSurface } from './settlement-surface.ts'
import { surfaceAt } from './surface-at.ts'
import { fieldOfMesh } from './surface-field.ts'
import { alongLine } from './surface-on-line.ts'

/** By straight lines between neighbouring points; `notes` say why it is not another method, and stand first. */
export function surfaceByLines(
  { points, unit, barriers, longestSideMetres, sectionLine, nodes }: SurfaceRequest,
  notes: readonly string[],
): Outcome<SurfaceWithField> {
  const placed = points.filter(({ eastingMetres: e, northingMetres: n }) => Number.isFinite(e + n))
  // Sides of some degrees are shorter than any limit in metres: it would be drawn as if it were ground.
  if (lookLikeDegrees(placed)) return reject(positionsInDegrees(placed))
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
    drawnBy: notes.length === 0 ? 'straight lines' : 'straight lines, since kriging was refused',
    variogram: null,
    ...shapeOfMesh(surface.value.mesh),
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

import type { SitePoint } from '../geometry/site-grid.ts'
import { accept, type Outcome, reject } from '../outcome.ts'
import { type GradientArrows, gradientArrows } from './gradient-arrows.ts'
import { gridValueAt } from './grid-value.ts'
import { type GroundSurface, groundSurfaceSteps, type SurfaceRequest } from './ground-surface.ts'
import { typicalSpacingMetres } from './point-spacing.ts'
import { type SlopeMap, slopeMap } from './slope-map.ts'
import type { SurfaceAspect } from './surface-aspects.ts'

export interface MapRequest extends SurfaceRequest {
  readonly aspect: SurfaceAspect
  /** Values are heads in metres: their gradient is wanted too. */
  readonly ofHeads: boolean
  /** Where its value is wanted. */
  readonly at: readonly SitePoint[]
}

/** A surface with what of it the plan shows beside its values. */
export interface GroundMap extends GroundSurface {
  /** Null where its values are shown. */
  readonly slopes: SlopeMap | null
  /** Null where it is not of heads. */
  readonly gradient: GradientArrows | null
  /** The surface at the places asked for; null where it is not shown. */
  readonly valuesAt: readonly (number | null)[]
}

/** A surface through points in steps, with its slopes or the gradient of its heads where these are asked for. */
export function* groundMapSteps(request: MapRequest): Generator<number, Outcome<GroundMap>> {
  const made = yield* groundSurfaceSteps(request)
  if (!made.ok) return made
  const { field, ...surface } = made.value
  // An empty plan would be taken for ground that does not move.
  if (surface.bands.length === 0) return reject(nothingShown(surface))
  const used = new Set(surface.pointsUsed)
  const spacing = typicalSpacingMetres(request.points.filter(({ id }) => used.has(id)))
  const { aspect, barriers, ofHeads, at } = request
  const known = spacing !== null && (ofHeads || aspect !== 'values' || at.length > 0) ? field() : null
  return accept({
    ...surface,
    notes: [...surface.notes, ...flatNote(surface)],
    slopes:
      known === null || spacing === null || ofHeads || aspect === 'values'
        ? null
        : slopeMap(known, aspect, spacing, barriers),
    gradient:
      known === null || spacing === null || !ofHeads ? null : gradientArrows(known, spacing, barriers),
    valuesAt: at.map((place) => (known === null ? null : gridValueAt(known.grid, place))),
  })
}

const nothingShown = ({ pointsUsed, notes }: GroundSurface) => ({
  code: 'nothing-shown',
  value: String(pointsUsed.length),
  expected: 'ground between points that stand near each other',
  message: [
    `Nothing can be shown between the ${pointsUsed.length} points with a value; that is not known, not unmoved.`,
    ...notes,
    'Look at the points themselves, and whether one stands far from all others.',
  ].join(' '),
})

/** One band of one value has no contours: said, so that their lack is not taken for a fault or for no movement. */
function flatNote({ bands, unit }: GroundSurface): readonly string[] {
  const [only] = bands
  return bands.length === 1 && only && only.highMm - only.lowMm <= 1e-9 * Math.abs(only.highMm)
    ? [
        `All points used have one value, ${Number(only.lowMm.toPrecision(4))} ${unit}: there is no contour between them.`,
      ]
    : []
}

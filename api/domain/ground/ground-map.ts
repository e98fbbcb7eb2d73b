import { finishSteps } from '../finish-steps.ts'
import type { SitePoint } from '../geometry/site-grid.ts'
import { accept, type Outcome } from '../outcome.ts'
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

/** The map at once; see `groundMapSteps`. */
export function groundMap(request: MapRequest): Outcome<GroundMap> {
  return finishSteps(groundMapSteps(request))
}

/** A surface through points in steps, with its slopes or the gradient of its heads where these are asked for. */
export function* groundMapSteps(request: MapRequest): Generator<number, Outcome<GroundMap>> {
  const made = yield* groundSurfaceSteps(request)
  if (!made.ok) return made
  const { field, ...surface } = made.value
  const used = new Set(surface.pointsUsed)
  const spacing = typicalSpacingMetres(request.points.filter(({ id }) => used.has(id)))
  const { aspect, barriers, ofHeads, at } = request
  const known = spacing !== null && (ofHeads || aspect !== 'values' || at.length > 0) ? field() : null
  return accept({
    ...surface,
    slopes:
      known === null || spacing === null || ofHeads || aspect === 'values'
        ? null
        : slopeMap(known, aspect, spacing, barriers),
    gradient:
      known === null || spacing === null || !ofHeads ? null : gradientArrows(known, spacing, barriers),
    valuesAt: at.map((place) => (known === null ? null : gridValueAt(known.grid, place))),
  })
}

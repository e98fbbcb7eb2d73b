import { accept, type Outcome } from '../outcome.ts'
import { type GradientArrow, gradientArrows } from './gradient-arrows.ts'
import { type GroundSurface, groundSurface, type SurfaceRequest } from './ground-surface.ts'
import { typicalSpacingMetres } from './point-spacing.ts'
import { type SlopeMap, slopeMap } from './slope-map.ts'
import type { SurfaceAspect } from './surface-aspects.ts'

export interface MapRequest extends SurfaceRequest {
  readonly aspect: SurfaceAspect
  /** Values are heads in metres: their gradient is wanted too. */
  readonly ofHeads: boolean
}

/** A surface with what of it the plan shows beside its values. */
export interface GroundMap extends GroundSurface {
  /** Null where its values are shown. */
  readonly slopes: SlopeMap | null
  /** Empty where it is not of heads. */
  readonly arrows: readonly GradientArrow[]
}

/** A surface through points, with its slopes or the gradient of its heads where these are asked for. */
export function groundMap(request: MapRequest): Outcome<GroundMap> {
  const made = groundSurface(request)
  if (!made.ok) return made
  const { field, ...surface } = made.value
  const used = new Set(surface.pointsUsed)
  const spacing = typicalSpacingMetres(request.points.filter(({ id }) => used.has(id)))
  const { aspect, barriers, ofHeads } = request
  const known = spacing !== null && (ofHeads || aspect !== 'values') ? field() : null
  return accept({
    ...surface,
    slopes:
      known === null || spacing === null || ofHeads || aspect === 'values'
        ? null
        : slopeMap(known, aspect, spacing, barriers),
    arrows: known === null || spacing === null || !ofHeads ? [] : gradientArrows(known, spacing, barriers),
  })
}

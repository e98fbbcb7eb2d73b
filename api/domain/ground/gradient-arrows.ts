import type { SitePoint } from '../geometry/site-grid.ts'
import { barrierBetween } from './barrier-between.ts'
import { gradientGrid, placeOfNode } from './grid-slope.ts'
import type { SurfaceField } from './surface-field.ts'

/** Hydraulic gradient of a surface of heads at a place. */
export interface GradientArrow {
  readonly place: SitePoint
  /** Fall of head over distance, metres per metre. */
  readonly gradient: number
  /** Clockwise from grid north, 0 to 360: the way in which the head falls. */
  readonly azimuthDegrees: number
  /** Null where the deviation of the surface is not known. */
  readonly gradientStandardError: number | null
  /** Of the direction; null as above, and where no direction is told. */
  readonly azimuthStandardErrorDegrees: number | null
  /** `told`: above twice its standard error. `none`: not above, so no direction is stated. `unknown`: no error known. */
  readonly standing: 'told' | 'none' | 'unknown'
}

/** Arrows, how far apart they stand, and over what length their errors are told. */
export interface GradientArrows {
  readonly arrows: readonly GradientArrow[]
  readonly latticeMetres: number
  readonly spacingMetres: number
}

/**
 * Gradients on a lattice of about `across` arrows over the longer side of a surface of heads in metres, each taken over
 * one spacing of the tips, never across a barrier and only where the surface is shown. The error is that of two heads
 * which err independently one spacing apart.
 */
export function gradientArrows(
  { grid, standardDeviations }: SurfaceField,
  spacingMetres: number,
  barriers: readonly (readonly SitePoint[])[],
  across = 8,
): GradientArrows {
  const { columns, rows, cellMetres, mask } = grid
  const parted = barriers.length === 0 ? null : barrierBetween(barriers)
  // Over half a spacing of few tips hardly a node has all its neighbours; within it the surface is nearly straight.
  const reach = Math.max(
    1,
    Math.round(Math.min(spacingMetres / 2, (Math.max(columns, rows) * cellMetres) / 24) / cellMetres),
  )
  const { east, north } = gradientGrid(grid, reach, parted)
  const step = Math.max(1, Math.round(Math.max(columns, rows) / across))
  const arrows: GradientArrow[] = []
  for (let row = step >> 1; row < rows; row += step)
    for (let column = step >> 1; column < columns; column += step) {
      const node = row * columns + column
      const [eastward, northward] = [east[node] as number, north[node] as number]
      if (mask[node] !== 0 || !Number.isFinite(eastward + northward)) continue
      const gradient = Math.hypot(eastward, northward)
      const deviation = standardDeviations?.[node]
      const error =
        deviation === undefined || !Number.isFinite(deviation)
          ? null
          : (Math.SQRT2 * deviation) / spacingMetres
      const standing =
        gradient === 0 ? 'none' : error === null ? 'unknown' : gradient > 2 * error ? 'told' : 'none'
      arrows.push({
        place: placeOfNode(grid, node),
        gradient,
        azimuthDegrees: ((Math.atan2(-eastward, -northward) * 180) / Math.PI + 360) % 360,
        gradientStandardError: error,
        azimuthStandardErrorDegrees:
          error === null || standing !== 'told' ? null : ((error / gradient) * 180) / Math.PI,
        standing,
      })
    }
  return { arrows, latticeMetres: step * cellMetres, spacingMetres }
}

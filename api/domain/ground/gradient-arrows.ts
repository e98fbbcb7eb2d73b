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

const arrowsAcross = 6

/**
 * Gradients on a lattice of about six arrows over the longer side of a surface of heads in metres, never across a
 * barrier and only where the surface is shown. The error is that of two heads which err independently one spacing of the
 * tips apart; the gradient is taken over the same length. Of a linear
 * piece it is its own, and its error that of its corners where this is greater.
 */
export function gradientArrows(
  { grid, standardDeviations, slopeErrors }: SurfaceField,
  spacingMetres: number,
  barriers: readonly (readonly SitePoint[])[],
): GradientArrows {
  const { columns, rows, cellMetres, mask } = grid
  const parted = barriers.length === 0 ? null : barrierBetween(barriers)
  const reach = slopeErrors !== null ? 1 : Math.max(1, Math.round(spacingMetres / 2 / cellMetres))
  const { east, north } = gradientGrid(grid, reach, parted)
  const step = Math.max(1, Math.round(Math.max(columns, rows) / arrowsAcross))
  const arrows: GradientArrow[] = []
  const isKnown = (node: number) =>
    mask[node] === 0 && Number.isFinite((east[node] as number) + (north[node] as number))
  for (let row = 0; row < rows; row += step)
    for (let column = 0; column < columns; column += step) {
      const node = nearestToMiddle(grid, { row, column, step }, isKnown)
      if (node === null) continue
      const [eastward, northward] = [east[node] as number, north[node] as number]
      const gradient = Math.hypot(eastward, northward)
      const deviation = standardDeviations?.[node]
      const error =
        deviation === undefined || !Number.isFinite(deviation)
          ? null
          : Math.max((Math.SQRT2 * deviation) / spacingMetres, slopeErrors?.[node] ?? 0)
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

/** The wanted node of a square of nodes nearest to its middle: narrow parts of a surface are not passed over; null: none. */
function nearestToMiddle(
  { columns, rows }: SurfaceField['grid'],
  { row, column, step }: { readonly row: number; readonly column: number; readonly step: number },
  isWanted: (node: number) => boolean,
): number | null {
  let nearest: number | null = null
  let least = Number.POSITIVE_INFINITY
  for (let y = row; y < Math.min(rows, row + step); y++)
    for (let x = column; x < Math.min(columns, column + step); x++) {
      const apart = Math.hypot(x - column - (step >> 1), y - row - (step >> 1))
      if (apart >= least || !isWanted(y * columns + x)) continue
      nearest = y * columns + x
      least = apart
    }
  return nearest
}

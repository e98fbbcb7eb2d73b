import { type EastNorth, toEastNorth } from './inclinometer-axes.ts'

/** Movement of one interval of a casing along its own grooves. */
export interface SpiralInterval {
  readonly aMm: number
  readonly bMm: number
  /** Bearing of the A groove at the middle of the interval. */
  readonly bearingDegrees: number
}

/** Movement added up in a casing whose grooves turn with depth: each interval is turned by its own bearing before the sum. */
export function spiralMovement(
  intervals: readonly SpiralInterval[],
  positiveB: 'clockwise' | 'counter-clockwise',
): EastNorth {
  return intervals.reduce<EastNorth>(
    (sum, { aMm, bMm, bearingDegrees }) => {
      const own = toEastNorth(aMm, bMm, { bearingDegrees, positiveB })
      return { east: sum.east + own.east, north: sum.north + own.north }
    },
    { east: 0, north: 0 },
  )
}

/** Vertical depth, m, that gauges reach which lean from the vertical by angles along one axis: Σ L · cos θ. */
export const verticalDepthMetres = (
  gauges: readonly { readonly lengthMetres: number; readonly tiltDegrees: number }[],
): number =>
  gauges.reduce(
    (sum, { lengthMetres, tiltDegrees }) => sum + lengthMetres * Math.cos((tiltDegrees * Math.PI) / 180),
    0,
  )

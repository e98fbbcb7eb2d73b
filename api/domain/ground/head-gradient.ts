import { accept, type Outcome, reject } from '../outcome.ts'

/** A point with a piezometric level. */
export interface HeadPoint {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly headMetres: number
}

/** Plane through three heads: gradients along east and north, and where the water goes. */
export interface HeadGradient {
  readonly east: number
  readonly north: number
  readonly magnitude: number
  /** Clockwise from grid north, 0 to 360; the direction of falling head. NaN where there is no gradient. */
  readonly flowAzimuthDegrees: number
}

/** Horizontal gradient from three heads; refused where the points lie on one line. */
export function headGradient(points: readonly [HeadPoint, HeadPoint, HeadPoint]): Outcome<HeadGradient> {
  const [a, b, c] = points
  const [x1, y1, h1] = [
    b.eastingMetres - a.eastingMetres,
    b.northingMetres - a.northingMetres,
    b.headMetres - a.headMetres,
  ]
  const [x2, y2, h2] = [
    c.eastingMetres - a.eastingMetres,
    c.northingMetres - a.northingMetres,
    c.headMetres - a.headMetres,
  ]
  const twiceArea = x1 * y2 - x2 * y1
  const longest = Math.max(x1 * x1 + y1 * y1, x2 * x2 + y2 * y2, (x2 - x1) ** 2 + (y2 - y1) ** 2)
  if (Math.abs(twiceArea) <= 1e-9 * longest)
    return reject({
      code: 'points-on-a-line',
      message: 'Three points on one line give no direction of flow; choose one beside the line.',
    })
  const east = (h1 * y2 - h2 * y1) / twiceArea
  const north = (x1 * h2 - x2 * h1) / twiceArea
  const magnitude = Math.hypot(east, north)
  const azimuth = (Math.atan2(-east, -north) * 180) / Math.PI
  return accept({
    east,
    north,
    magnitude,
    flowAzimuthDegrees: magnitude === 0 ? Number.NaN : (azimuth + 360) % 360,
  })
}

import type { Ellipsoid } from './ellipsoids.ts'
import type { LngLat } from './site-grid.ts'

/** How one vertical datum lies over another around a point (EPSG method 1046, vertical offset and slope). */
export interface VerticalShift {
  readonly offsetMetres: number
  readonly slopeNorthArcSeconds: number
  readonly slopeEastArcSeconds: number
  readonly about: LngLat
  /** Along which the slopes are taken. */
  readonly ellipsoid: Ellipsoid
}

const radiansPerDegree = Math.PI / 180
const radiansPerArcSecond = Math.PI / 648_000

/** A level on the second datum from one on the first, metres, up positive; good for some hundred kilometres around. */
export function shiftLevel(levelMetres: number, at: LngLat, by: VerticalShift): number {
  const phi = by.about[1] * radiansPerDegree
  const flattening = 1 / by.ellipsoid.inverseFlattening
  const e2 = flattening * (2 - flattening)
  const across = 1 - e2 * Math.sin(phi) ** 2
  const meridianRadius = (by.ellipsoid.semiMajorMetres * (1 - e2)) / across ** 1.5
  const primeVerticalRadius = by.ellipsoid.semiMajorMetres / Math.sqrt(across)
  const north = meridianRadius * (at[1] - by.about[1]) * radiansPerDegree
  const east =
    primeVerticalRadius * Math.cos(at[1] * radiansPerDegree) * (at[0] - by.about[0]) * radiansPerDegree
  return (
    levelMetres +
    by.offsetMetres +
    by.slopeNorthArcSeconds * radiansPerArcSecond * north +
    by.slopeEastArcSeconds * radiansPerArcSecond * east
  )
}

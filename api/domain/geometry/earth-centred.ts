import proj4 from 'proj4'
import { type Ellipsoid, ellipsoidParameters } from './ellipsoids.ts'
import type { LngLat } from './site-grid.ts'

/** Earth-centred axes, metres: X to the prime meridian, Y to 90° east, Z to the pole. */
export type EarthCentred = readonly [x: number, y: number, z: number]

/** Shift, turns and scale between two earth-centred frames. */
export interface FrameShift {
  readonly shiftMetres: EarthCentred
  /** About X, Y and Z; zero where only a shift is known. */
  readonly turnArcSeconds?: EarthCentred
  readonly scalePpm?: number
  /**
   * What turns: the position vector (EPSG 1033, 9606) or the frame of the axes (EPSG 1032, 9607). They differ
   * in the sign of the turns, and nothing else in the numbers says which is meant.
   */
  readonly convention?: 'position-vector' | 'coordinate-frame'
  /** Point about which to turn and scale (Molodensky-Badekas, EPSG 1034); the earth's centre without. */
  readonly aboutMetres?: EarthCentred
}

const radiansPerArcSecond = Math.PI / 648_000

/** Longitude, latitude and height above the ellipsoid to earth-centred axes. */
export function toEarthCentred([longitude, latitude]: LngLat, heightMetres: number, ellipsoid: Ellipsoid) {
  const [x = Number.NaN, y = Number.NaN, z = Number.NaN] = proj4(
    `+proj=longlat ${ellipsoidParameters(ellipsoid)} +no_defs`,
    `+proj=geocent ${ellipsoidParameters(ellipsoid)} +units=m +no_defs`,
    [longitude, latitude, heightMetres],
  )
  return [x, y, z] as const
}

/** Back from earth-centred axes: degrees, and metres above the ellipsoid. */
export function fromEarthCentred([x, y, z]: EarthCentred, ellipsoid: Ellipsoid) {
  const [longitude = Number.NaN, latitude = Number.NaN, heightMetres = Number.NaN] = proj4(
    `+proj=geocent ${ellipsoidParameters(ellipsoid)} +units=m +no_defs`,
    `+proj=longlat ${ellipsoidParameters(ellipsoid)} +no_defs`,
    [x, y, z],
  )
  return { longitude, latitude, heightMetres }
}

/**
 * Brings a position into another earth-centred frame, with the whole rotation matrix. The usual short form, which
 * proj4 uses for `+towgs84`, takes sines as angles: at 1″ of turn about two axes it is a tenth of a millimetre off.
 */
export function shiftFrame(position: EarthCentred, by: FrameShift): EarthCentred {
  const sign = by.convention === 'coordinate-frame' ? -1 : 1
  const [rx, ry, rz] = (by.turnArcSeconds ?? [0, 0, 0]).map((turn) => sign * turn * radiansPerArcSecond) as [
    number,
    number,
    number,
  ]
  const about = by.aboutMetres ?? [0, 0, 0]
  const [x, y, z] = [position[0] - about[0], position[1] - about[1], position[2] - about[2]]
  const [sx, sy, sz] = [Math.sin(rx), Math.sin(ry), Math.sin(rz)]
  const [cx, cy, cz] = [Math.cos(rx), Math.cos(ry), Math.cos(rz)]
  const scale = 1 + (by.scalePpm ?? 0) * 1e-6
  const turned = [
    cy * cz * x + (sx * sy * cz - cx * sz) * y + (cx * sy * cz + sx * sz) * z,
    cy * sz * x + (sx * sy * sz + cx * cz) * y + (cx * sy * sz - sx * cz) * z,
    -sy * x + sx * cy * y + cx * cy * z,
  ] as const
  return [
    about[0] + by.shiftMetres[0] + scale * turned[0],
    about[1] + by.shiftMetres[1] + scale * turned[1],
    about[2] + by.shiftMetres[2] + scale * turned[2],
  ]
}

/** East, north and up of a position seen from an origin, in the plane that touches the ellipsoid there (EPSG 9836). */
export function toEastNorthUp(
  position: EarthCentred,
  origin: EarthCentred,
  ellipsoid: Ellipsoid,
): EarthCentred {
  const { longitude, latitude } = fromEarthCentred(origin, ellipsoid)
  const [lambda, phi] = [(longitude * Math.PI) / 180, (latitude * Math.PI) / 180]
  const [x, y, z] = [position[0] - origin[0], position[1] - origin[1], position[2] - origin[2]]
  const outward = Math.cos(lambda) * x + Math.sin(lambda) * y
  return [
    -Math.sin(lambda) * x + Math.cos(lambda) * y,
    -Math.sin(phi) * outward + Math.cos(phi) * z,
    Math.cos(phi) * outward + Math.sin(phi) * z,
  ]
}

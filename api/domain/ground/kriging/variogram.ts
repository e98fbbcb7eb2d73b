import { type VariogramShape, variogramShare } from './variogram-shape.ts'

/**
 * How unlike the value becomes with distance. Variances in the value's unit squared. What an instrument adds is not
 * in here: it is each point's own standard uncertainty.
 */
export interface Variogram {
  readonly shape: VariogramShape
  /** Above 0. Of a power law: the semivariance at `rangeMetres`. */
  readonly partialSill: number
  /** The parameter a of the formula, above 0, along the main direction. */
  readonly rangeMetres: number
  /** Of a power law only: above 0 and below 2. */
  readonly exponent?: number
  /** Micro-structure: variation of the ground itself within less than the least distance between points. */
  readonly nugget: number
  /** Null: alike in every direction. */
  readonly anisotropy: Anisotropy | null
}

/** The range is longest along the azimuth (clockwise from grid north) and `ratio` (above 0, up to 1) of it across. */
export interface Anisotropy {
  readonly azimuthDegrees: number
  readonly ratio: number
}

/** Semivariance at a distance along the main direction, nugget included; 0 at no distance. */
export function semivariance(variogram: Variogram, distanceMetres: number): number {
  const { shape, partialSill, rangeMetres, exponent, nugget } = variogram
  if (distanceMetres === 0) return 0
  return nugget + partialSill * variogramShare(shape, distanceMetres, rangeMetres, exponent)
}

/** Coordinates in which the variogram is alike in every direction: [a, b, c, d] of u = a·e + b·n, v = c·e + d·n. */
export function isotropicAxes(
  anisotropy: Anisotropy | null,
): readonly [ue: number, un: number, ve: number, vn: number] {
  if (anisotropy === null) return [1, 0, 0, 1]
  const azimuth = (anisotropy.azimuthDegrees * Math.PI) / 180
  const [sin, cos] = [Math.sin(azimuth), Math.cos(azimuth)]
  return [sin, cos, cos / anisotropy.ratio, -sin / anisotropy.ratio]
}

/** Distance at which 95 % of the partial sill is reached; that of a power law is not defined: its range parameter. */
export function practicalRangeMetres({ shape, rangeMetres }: Variogram): number {
  switch (shape) {
    case 'exponential':
      return 3 * rangeMetres
    case 'gaussian':
      return Math.sqrt(3) * rangeMetres
    case 'matern-3/2':
      return (4.7438645 / Math.sqrt(3)) * rangeMetres
    case 'matern-5/2':
      return (5.9181 / Math.sqrt(5)) * rangeMetres
    default:
      return rangeMetres
  }
}

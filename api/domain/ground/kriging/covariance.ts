import type { Variogram } from './variogram.ts'
import { variogramShare } from './variogram-shape.ts'

/** Covariance at a distance, in the frame where the variogram is alike in every direction. */
export interface Covariance {
  /** At no distance, nugget included: the prior variance. */
  readonly atPlace: number
  /** Squared distance up to which two positions are one place. */
  readonly placeSquared: number
  /** Bends nowhere, not even at no distance: gaussian and Matérn 5/2 without a nugget. */
  readonly isSmooth: boolean
  /** Squared distance from which the covariance is 0; infinite where there is no such distance. */
  readonly reachSquared: number
  /**
   * Covariance between (u, v) and the first `count` of (us, vs), into `out` from `at`; positions up to `placeSquared`
   * apart are one place (-1: none are, and the nugget is nowhere met).
   */
  fill(
    u: number,
    v: number,
    us: Float64Array,
    vs: Float64Array,
    count: number,
    out: Float64Array,
    at: number,
    placeSquared: number,
  ): void
  /** At a distance (metres), below which nothing is one place but 0. */
  at(distanceMetres: number): number
}

/**
 * Covariance of a variogram. A power law has no sill: the semivariance is taken from a level above all of it within
 * `farthestMetres`, which leaves estimates and variances as they are wherever the weights sum to 1.
 */
export function covarianceOf(variogram: Variogram, farthestMetres: number, placeMetres: number): Covariance {
  const { shape, partialSill, rangeMetres, exponent, nugget } = variogram
  const level =
    shape === 'power'
      ? 2 * partialSill * variogramShare(shape, farthestMetres, rangeMetres, exponent)
      : partialSill
  const exact = (distance: number) =>
    level - partialSill * variogramShare(shape, distance, rangeMetres, exponent)
  const atPlace = level + nugget
  const at = (distance: number) => (distance === 0 ? atPlace : exact(distance))
  if (shape === 'spherical') {
    const reachSquared = rangeMetres * rangeMetres
    const linear = (1.5 * partialSill) / rangeMetres
    const cubic = (0.5 * partialSill) / rangeMetres ** 3
    return {
      atPlace,
      placeSquared: placeMetres * placeMetres,
      isSmooth: false,
      reachSquared,
      at,
      fill(u, v, us, vs, count, out, start, placeSquared) {
        for (let index = 0; index < count; index++) {
          const du = u - (us[index] as number)
          const dv = v - (vs[index] as number)
          const squared = du * du + dv * dv
          if (squared >= reachSquared) out[start + index] = 0
          else if (squared <= placeSquared) out[start + index] = atPlace
          else out[start + index] = partialSill - Math.sqrt(squared) * (linear - cubic * squared)
        }
      },
    }
  }
  // A power law is not smooth at no distance, where a cubic would miss it; a straight line is.
  const farthest = shape === 'power' && exponent !== undefined && exponent !== 1 ? 0 : farthestMetres
  const table = tableOf(exact, rangeMetres, farthest)
  return {
    atPlace,
    placeSquared: placeMetres * placeMetres,
    isSmooth: nugget === 0 && (shape === 'gaussian' || shape === 'matern-5/2'),
    reachSquared: Number.POSITIVE_INFINITY,
    at,
    fill(u, v, us, vs, count, out, start, placeSquared) {
      const { pieces, perMetre, last } = table
      for (let index = 0; index < count; index++) {
        const du = u - (us[index] as number)
        const dv = v - (vs[index] as number)
        const squared = du * du + dv * dv
        if (squared <= placeSquared) {
          out[start + index] = atPlace
          continue
        }
        const place = Math.sqrt(squared) * perMetre
        if (place >= last) {
          out[start + index] = exact(place / perMetre)
          continue
        }
        const piece = place | 0
        const t = place - piece
        const from = 4 * piece
        out[start + index] =
          (((pieces[from + 3] as number) * t + (pieces[from + 2] as number)) * t +
            (pieces[from + 1] as number)) *
            t +
          (pieces[from] as number)
      }
    },
  }
}

interface Table {
  /** Cubic through four values of each step, c0 to c3. */
  readonly pieces: Float64Array
  readonly perMetre: number
  readonly last: number
}

/** Steps of a 256th of the range: the cubic's error is below 1e-10 of the partial sill for every shape with a sill. */
function tableOf(
  exact: (distanceMetres: number) => number,
  rangeMetres: number,
  farthestMetres: number,
): Table {
  const last = Math.max(0, Math.min(8192, Math.ceil((farthestMetres / rangeMetres) * 256)))
  const step = rangeMetres / 256
  const pieces = new Float64Array(4 * last)
  for (let piece = 0; piece < last; piece++) {
    const [a, b, c, d] = [0, 1 / 3, 2 / 3, 1].map((t) => exact((piece + t) * step)) as [
      number,
      number,
      number,
      number,
    ]
    pieces[4 * piece] = a
    pieces[4 * piece + 1] = -5.5 * a + 9 * b - 4.5 * c + d
    pieces[4 * piece + 2] = 9 * a - 22.5 * b + 18 * c - 4.5 * d
    pieces[4 * piece + 3] = 4.5 * (d - a) + 13.5 * (b - c)
  }
  return { pieces, perMetre: 1 / step, last }
}

/** Shapes a variogram may take. All but the last rise from 0 at no distance towards 1; a power law rises for ever. */
export const variogramShapes = [
  'spherical',
  'exponential',
  'gaussian',
  'matern-3/2',
  'matern-5/2',
  'power',
] as const

export type VariogramShape = (typeof variogramShapes)[number]

/**
 * Share of the partial sill lost at a distance, 0 to 1: semivariance = partial sill × share.
 * `rangeMetres` (above 0) is the parameter a of the formula, not the practical range: spherical reaches 1 at a,
 * exponential 1 − e^(−h/a) reaches 0.95 near 3a, gaussian 1 − e^(−(h/a)²) near √3·a.
 * Matérn: 1 − (1 + t)e^(−t) with t = √3·h/a, and 1 − (1 + t + t²/3)e^(−t) with t = √5·h/a.
 * Power: (h/a)^exponent, exponent above 0 and below 2 (1: linear), without a sill. The nugget is not part of the shape.
 */
export function variogramShare(
  shape: VariogramShape,
  distanceMetres: number,
  rangeMetres: number,
  exponent = 1,
): number {
  const ratio = distanceMetres / rangeMetres
  switch (shape) {
    case 'spherical':
      return ratio >= 1 ? 1 : ratio * (1.5 - 0.5 * ratio * ratio)
    case 'exponential':
      return -Math.expm1(-ratio)
    case 'gaussian':
      return -Math.expm1(-ratio * ratio)
    case 'matern-3/2': {
      const t = Math.sqrt(3) * ratio
      return 1 - (1 + t) * Math.exp(-t)
    }
    case 'matern-5/2': {
      const t = Math.sqrt(5) * ratio
      return 1 - (1 + t + (t * t) / 3) * Math.exp(-t)
    }
    case 'power':
      return ratio ** exponent
  }
}

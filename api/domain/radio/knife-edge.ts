import { fresnelIntegrals } from './fresnel-integrals.ts'

/** Below this an edge takes nothing that one could measure: loss counts as 0 (Recommendation ITU-R P.526). */
const clearBelow = -0.78

/**
 * Number v of an edge across a path (Recommendation ITU-R P.526, section 4.1): `heightMetres` of the edge above the straight
 * line between the antennas, below it negative; distances to both ends along the path, metres above 0.
 */
export const knifeEdgeNumber = (
  heightMetres: number,
  fromOneMetres: number,
  fromOtherMetres: number,
  wavelength: number,
): number => heightMetres * Math.sqrt((2 / wavelength) * (1 / fromOneMetres + 1 / fromOtherMetres))

/** Loss in dB of one knife edge by Fresnel's integrals, exact for any v; slightly negative, a gain, well below the line. */
export function knifeEdgeLossDb(v: number): number {
  const { cosine, sine } = fresnelIntegrals(v)
  return -20 * Math.log10(Math.hypot(1 - cosine - sine, cosine - sine) / 2)
}

/**
 * The same by the approximation of Recommendation ITU-R P.526, 0 below v = −0.78. Within 0.2 dB of the exact loss; never
 * a gain, so it is what links are predicted with.
 */
export function approximateKnifeEdgeLossDb(v: number): number {
  if (v < clearBelow) return 0
  const from = v - 0.1
  return 6.9 + 20 * Math.log10(Math.sqrt(from * from + 1) + from)
}

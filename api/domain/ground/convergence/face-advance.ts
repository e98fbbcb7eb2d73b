/** How a tunnel closes behind its face (Panet and Guenot 1982; Sulem et al. 1987; from memory). */
export interface ClosureLaw {
  /** X: distance that the face's influence is measured in. */
  readonly influenceMetres: number
  /** Closure far behind the face without creep, mm. */
  readonly finalMm: number
  /** Creep of the ground; without it, closure follows the face alone. */
  readonly creep?: { readonly share: number; readonly timeDays: number; readonly exponent: number }
}

/** Share of the closure by advance, 0 to 1, at a distance behind the face: 1 − (X/(x + X))². */
export const closureShare = (influenceMetres: number, behindFaceMetres: number): number =>
  behindFaceMetres <= 0 ? 0 : 1 - (influenceMetres / (behindFaceMetres + influenceMetres)) ** 2

/** Closure, mm, at a distance behind the face and a time since it passed. */
export function closureMm(
  { influenceMetres, finalMm, creep }: ClosureLaw,
  behindFaceMetres: number,
  days: number,
): number {
  const crept = creep
    ? 1 + creep.share * (1 - (creep.timeDays / (creep.timeDays + Math.max(0, days))) ** creep.exponent)
    : 1
  return finalMm * closureShare(influenceMetres, behindFaceMetres) * crept
}

type Place = readonly [number, number, number]

/** Shortening of the distance of two targets, closing positive, and its share of the first distance in per cent. */
export function convergenceOfTargets(
  first: readonly [Place, Place],
  now: readonly [Place, Place],
): { readonly firstDistanceMetres: number; readonly convergenceMm: number; readonly strainPercent: number } {
  const apart = ([a, b]: readonly [Place, Place]) => Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2])
  const firstDistanceMetres = apart(first)
  const shorter = firstDistanceMetres - apart(now)
  return {
    firstDistanceMetres,
    convergenceMm: 1000 * shorter,
    strainPercent: (100 * shorter) / firstDistanceMetres,
  }
}

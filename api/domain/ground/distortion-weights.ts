/**
 * How much each settlement along a line counts in a number made of them, by its place in the line; chainages ascend.
 * Errors of settlements carry over with these weights.
 */
export type SettlementWeights = readonly number[]

/** Of the rigid tilt from the first to the last point, mm/m. */
export const tiltWeights = (chainagesMetres: readonly number[]): SettlementWeights =>
  slopeWeights(chainagesMetres, 0, chainagesMetres.length - 1)

/** Of the slope of a bay, mm/m; bay 0 lies between the first two points. */
export const bayWeights = (chainagesMetres: readonly number[], bay: number): SettlementWeights =>
  slopeWeights(chainagesMetres, bay, bay + 1)

/** Of the slope of a bay less the rigid tilt, mm/m. */
export function angularDistortionWeights(chainagesMetres: readonly number[], bay: number): SettlementWeights {
  const tilt = tiltWeights(chainagesMetres)
  return bayWeights(chainagesMetres, bay).map((weight, at) => weight - (tilt[at] ?? 0))
}

/** Of the distance, mm, of a point from the straight line between two others of the line, the ends where not named. */
export function deflectionWeights(
  chainagesMetres: readonly number[],
  of: number,
  from = 0,
  to = chainagesMetres.length - 1,
): SettlementWeights {
  const [start, end, own] = [from, to, of].map((at) => chainagesMetres[at] ?? 0) as [number, number, number]
  const share = (own - start) / (end - start)
  return chainagesMetres.map(
    (_, at) => (at === of ? 1 : 0) - (at === from ? 1 - share : 0) - (at === to ? share : 0),
  )
}

/** Standard error of such a number from errors that do not depend on each other; null where one that counts is not known. */
export function weightedStandardError(
  weights: SettlementWeights,
  standardUncertaintiesMm: readonly (number | null)[],
): number | null {
  const shares = weights.flatMap((weight, at) => {
    const own = standardUncertaintiesMm[at] ?? null
    return weight === 0 ? [] : [own === null ? Number.NaN : weight * own]
  })
  const error = Math.hypot(...shares)
  return Number.isFinite(error) ? error : null
}

function slopeWeights(chainagesMetres: readonly number[], from: number, to: number): SettlementWeights {
  const lengthMetres = (chainagesMetres[to] ?? 0) - (chainagesMetres[from] ?? 0)
  return chainagesMetres.map((_, at) => ((at === to ? 1 : 0) - (at === from ? 1 : 0)) / lengthMetres)
}

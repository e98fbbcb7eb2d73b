/** Of four nodes. */
export type Shares = readonly [number, number, number, number]

/** Of four nodes at -1, 0, 1 and 2, a cubic's shares at t. */
export function cubicShares(t: number): Shares {
  const [before, after, last] = [t + 1, t - 1, t - 2]
  return [
    (-t * after * last) / 6,
    (before * after * last) / 2,
    (-before * t * last) / 2,
    (before * t * after) / 6,
  ]
}

/** What a cubic misses between two nodes, as a share of what it misses halfway: 0 at both, 1 at t = 0.5. */
export const missedShare = (t: number) => 16 * (t * (1 - t)) ** 2

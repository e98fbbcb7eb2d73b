/** Places in a block of nodes, and each node's shares of them, along one side of it. */
export interface SideOfBlock {
  /** In nodes from the block's first. */
  readonly places: readonly number[]
  /** Node by node, a share for each place. */
  readonly shares: Float64Array
}

/** Places enough for what is smooth over a block to 1e-10 of itself: at the distances that `smoothBeyond` allows. */
const most = 9

/** How many block radii (half of its diagonal) away a point must be for its covariance to count as smooth. */
export const smoothBeyond = 4

/** Chebyshev's places along a side of `count` nodes; the nodes themselves where those are no more. */
export function sideOfBlock(count: number): SideOfBlock {
  const order = Math.min(most, count)
  const angles = Array.from({ length: order }, (_, at) => ((2 * at + 1) * Math.PI) / (2 * order))
  const places = angles.map((angle, at) => (count <= most ? at : ((count - 1) / 2) * (1 - Math.cos(angle))))
  const shares = new Float64Array(count * order)
  for (let node = 0; node < count; node++) {
    const own = shares.subarray(node * order, (node + 1) * order)
    const exact = places.indexOf(node)
    if (exact >= 0) {
      own[exact] = 1
      continue
    }
    // Barycentric form of Lagrange's polynomial.
    let whole = 0
    for (let at = 0; at < order; at++) {
      own[at] = ((at % 2 === 0 ? 1 : -1) * Math.sin(angles[at] as number)) / (node - (places[at] as number))
      whole += own[at] as number
    }
    for (let at = 0; at < order; at++) own[at] = (own[at] as number) / whole
  }
  return { places, shares }
}

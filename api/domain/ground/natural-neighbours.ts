type Place = readonly [east: number, north: number]

/**
 * Sibson's weights of places at a target: the share of the target's Voronoi cell that each place would lose to it.
 * They sum to 1 and reproduce any plane. Null outside the hull, where the cell has no end. Places must be distinct.
 */
export function naturalNeighbourWeights(places: readonly Place[], target: Place): readonly number[] | null {
  const [te, tn] = target
  const distances = places.map(([e, n]) => Math.hypot(e - te, n - tn))
  const extent = distances.reduce((most, one) => Math.max(most, one), 0)
  const at = distances.findIndex((distance) => distance <= 1e-9 * extent)
  if (at >= 0) return places.map((_, index) => (index === at ? 1 : 0))
  const order = [...places.keys()].toSorted((a, b) => (distances[a] as number) - (distances[b] as number))
  const far = 1e4 * extent
  let cell: readonly Place[] = [
    [-far, -far],
    [far, -far],
    [far, far],
    [-far, far],
  ]
  const neighbours: number[] = []
  for (const index of order) {
    const reach = cell.reduce((most, [e, n]) => Math.max(most, Math.hypot(e, n)), 0)
    if ((distances[index] as number) > 2 * reach) break
    const [e, n] = places[index] as Place
    cell = clip(cell, [0, 0], [e - te, n - tn])
    neighbours.push(index)
  }
  if (cell.some(([e, n]) => Math.max(Math.abs(e), Math.abs(n)) > 0.4 * far)) return null
  const weights = new Array<number>(places.length).fill(0)
  const whole = areaOf(cell)
  for (const own of neighbours) {
    const [e, n] = places[own] as Place
    let lost = cell
    for (const other of neighbours) {
      if (other === own || lost.length < 3) continue
      const [oe, on] = places[other] as Place
      lost = clip(lost, [e - te, n - tn], [oe - te, on - tn])
    }
    weights[own] = areaOf(lost) / whole
  }
  return weights
}

/** What of a convex ring is nearer to one place than to another. */
function clip(ring: readonly Place[], own: Place, other: Place): readonly Place[] {
  const [de, dn] = [other[0] - own[0], other[1] - own[1]]
  const level = (other[0] ** 2 + other[1] ** 2 - own[0] ** 2 - own[1] ** 2) / 2
  const beyond = ([e, n]: Place) => de * e + dn * n - level
  const kept: Place[] = []
  ring.forEach((from, index) => {
    const to = ring[(index + 1) % ring.length] as Place
    const [a, b] = [beyond(from), beyond(to)]
    if (a <= 0) kept.push(from)
    if (a < 0 !== b < 0 && a !== 0 && b !== 0) {
      const share = a / (a - b)
      kept.push([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])])
    }
  })
  return kept
}

function areaOf(ring: readonly Place[]): number {
  let twice = 0
  ring.forEach(([ae, an], index) => {
    const [be, bn] = ring[(index + 1) % ring.length] as Place
    twice += ae * bn - be * an
  })
  return Math.abs(twice) / 2
}

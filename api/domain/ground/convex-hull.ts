type Place = readonly [east: number, north: number]

/** Outermost places, counter-clockwise, without those between two others; fewer than three where all lie on a line. */
export function convexHull(places: readonly Place[]): readonly Place[] {
  const sorted = places.toSorted((a, b) => a[0] - b[0] || a[1] - b[1])
  if (sorted.length < 3) return sorted
  const half = (ordered: readonly Place[]) => {
    const chain: Place[] = []
    for (const place of ordered) {
      while (chain.length > 1 && turn(chain.at(-2) as Place, chain.at(-1) as Place, place) <= 0) chain.pop()
      chain.push(place)
    }
    return chain.slice(0, -1)
  }
  return [...half(sorted), ...half(sorted.toReversed())]
}

/** Area (counter-clockwise positive) and centroid of a ring that does not repeat its first place. */
export function areaAndCentroid(ring: readonly Place[]): { readonly area: number; readonly centroid: Place } {
  const [oe, on] = ring[0] ?? [0, 0]
  let [area, east, north] = [0, 0, 0]
  ring.forEach(([ae, an], index) => {
    const [be, bn] = ring[(index + 1) % ring.length] as Place
    const cross = (ae - oe) * (bn - on) - (be - oe) * (an - on)
    area += cross / 2
    east += (cross * (ae - oe + be - oe)) / 6
    north += (cross * (an - on + bn - on)) / 6
  })
  return { area, centroid: [oe + east / area, on + north / area] }
}

/** Whether a place lies in a convex hull or within `slack` of its sides. */
export const isInHull = (hull: readonly Place[], place: Place, slack: number): boolean =>
  inwardOfHull(hull, place) >= -slack

/** How far a place lies inside the lines of a convex hull's sides, metres; below 0 beyond one, and without a limit for a hull of no area. */
export function inwardOfHull(hull: readonly Place[], [east, north]: Place): number {
  if (hull.length < 3) return Number.NEGATIVE_INFINITY
  let least = Number.POSITIVE_INFINITY
  for (let index = 0; index < hull.length; index++) {
    const [ae, an] = hull[index] as Place
    const [be, bn] = hull[index + 1 === hull.length ? 0 : index + 1] as Place
    const [de, dn] = [be - ae, bn - an]
    least = Math.min(least, (de * (north - an) - dn * (east - ae)) / Math.sqrt(de * de + dn * dn))
  }
  return least
}

/** Of a straight way from a place to one inside a convex hull, the share that lies outside it. */
export const shareOutside = (hull: readonly Place[], from: Place, inside: Place): number =>
  hull.reduce((most, [ae, an], index) => {
    const [be, bn] = hull[(index + 1) % hull.length] as Place
    const inward = ([e, n]: Place) => (be - ae) * (n - an) - (bn - an) * (e - ae)
    const [a, b] = [inward(from), inward(inside)]
    return a < 0 ? Math.max(most, a / (a - b)) : most
  }, 0)

const turn = (a: Place, b: Place, c: Place) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

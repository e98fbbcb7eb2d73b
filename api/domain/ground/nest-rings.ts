import type { SitePoint } from '../geometry/site-grid.ts'

type Ring = readonly SitePoint[]

/**
 * Outer rings (counter-clockwise) with the holes that lie in them. A ring that encloses no more than `nothing` (a ridge at a
 * level) is none.
 */
export function nestRings(rings: readonly Ring[], nothing: number): readonly (readonly Ring[])[] {
  const measured = rings.map((ring) => ({ ring, area: signedArea(ring) }))
  const outer = measured
    .filter(({ area }) => area > nothing)
    .toSorted((a, b) => a.area - b.area)
    .map(({ ring }) => ({ ring, box: boxOf(ring), polygon: [ring] }))
  for (const { ring, area } of measured) {
    if (area >= -nothing) continue
    const [[ae, an], [be, bn]] = ring as [SitePoint, SitePoint]
    const [e, n] = [(ae + be) / 2, (an + bn) / 2]
    outer
      .find(
        ({ ring: around, box: [west, south, east, north] }) =>
          e >= west && e <= east && n >= south && n <= north && contains(around, e, n),
      )
      ?.polygon.push(ring)
  }
  return outer.map(({ polygon }) => polygon)
}

function boxOf(ring: Ring): readonly [west: number, south: number, east: number, north: number] {
  let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity]
  for (const [e, n] of ring) {
    west = Math.min(west, e)
    south = Math.min(south, n)
    east = Math.max(east, e)
    north = Math.max(north, n)
  }
  return [west, south, east, north]
}

function signedArea(ring: Ring): number {
  const [oe, on] = ring[0] as SitePoint
  let twice = 0
  for (let index = 1; index < ring.length; index++) {
    const [from, to] = [ring[index - 1] as SitePoint, ring[index] as SitePoint]
    twice += (from[0] - oe) * (to[1] - on) - (to[0] - oe) * (from[1] - on)
  }
  return twice / 2
}

function contains(ring: Ring, e: number, n: number): boolean {
  let inside = false
  for (let index = 1; index < ring.length; index++) {
    const [from, to] = [ring[index - 1] as SitePoint, ring[index] as SitePoint]
    const crosses = from[1] > n !== to[1] > n
    if (crosses && e < from[0] + ((n - from[1]) / (to[1] - from[1])) * (to[0] - from[0])) inside = !inside
  }
  return inside
}

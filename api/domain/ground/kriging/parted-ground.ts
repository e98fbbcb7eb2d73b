import { convexHull, isInHull } from '../convex-hull.ts'
import { type BarrierWays, barrierWays } from './barrier-ways.ts'
import type { KrigingPoint, Ways } from './kriging-system.ts'

type Place = readonly [east: number, north: number]

/** Ground that no barrier parts: its places, and how ways run within it. */
export interface GroundPart {
  readonly places: readonly KrigingPoint[]
  /** Which of all places they are. */
  readonly indices: readonly number[]
  readonly hull: readonly Place[]
  /** Null: no barrier reaches between the outermost places, every way is straight. */
  readonly ways: Ways | null
  /** Whether a target inside the hull can be reached from the part's places. */
  reaches(east: number, north: number): boolean
}

/**
 * Parts the places by barriers: two belong together where a way between them crosses none and stays where ground is
 * known (around an end or corner that lies inside the outermost places). `axes` turn to the frame in which the
 * variogram is alike in every direction, in which lengths are measured.
 */
export function partGround(
  places: readonly KrigingPoint[],
  barriers: readonly (readonly Place[])[],
  axes: readonly [number, number, number, number],
  extentMetres: number,
): readonly GroundPart[] {
  const all = places.map((_, index) => index)
  if (barriers.length === 0) return [straightPart(places, all)]
  const turn = ([e, n]: Place): Place => [axes[0] * e + axes[1] * n, axes[2] * e + axes[3] * n]
  const turned = places.map(({ east, north }) => turn([east, north]))
  const hull = convexHull(turned)
  const hair = 1e-7 * extentMetres
  const ways = barrierWays(
    barriers.map((line) => line.map(turn)),
    hair,
    (place) => isInHull(hull, place, -hair),
  )
  const groups: number[][] = []
  for (const index of all) {
    const joined = groups.filter(([first]) =>
      Number.isFinite(ways.length(turned[first as number] as Place, turned[index] as Place)),
    )
    if (joined[0]) joined[0].push(index)
    else groups.push([index])
  }
  return groups.map((indices) => {
    const own = straightPart(
      indices.map((index) => places[index] as KrigingPoint),
      indices,
    )
    if (!barriers.some((line) => entersHull(line, own.hull))) return own
    return withWays(
      own,
      indices.map((index) => turned[index] as Place),
      ways,
      turn,
      barriers,
    )
  })
}

function straightPart(places: readonly KrigingPoint[], indices: readonly number[]): GroundPart {
  const hull = convexHull(places.map(({ east, north }): Place => [east, north]))
  return { places, indices, hull, ways: null, reaches: () => true }
}

function withWays(
  part: GroundPart,
  turned: readonly Place[],
  ways: BarrierWays,
  turn: (place: Place) => Place,
  barriers: readonly (readonly Place[])[],
): GroundPart {
  return {
    ...part,
    reaches: (east, north) => Number.isFinite(ways.length(turn([east, north]), turned[0] as Place)),
    ways: {
      between: (one, other) => ways.length(turned[one] as Place, turned[other] as Place),
      fill(east, north, out) {
        const target = turn([east, north])
        for (let index = 0; index < turned.length; index++)
          out[index] = ways.length(target, turned[index] as Place)
      },
      passes: (west, south, east, north) =>
        barriers.some((line) =>
          line.some(([be, bn], index) => {
            const [ae, an] = line[Math.max(0, index - 1)] as Place
            return (
              Math.max(ae, be) >= west &&
              Math.min(ae, be) <= east &&
              Math.max(an, bn) >= south &&
              Math.min(an, bn) <= north
            )
          }),
        ),
    },
  }
}

/** Whether any of a line lies inside a convex hull (Liang & Barsky, one side after another). */
function entersHull(line: readonly Place[], hull: readonly Place[]): boolean {
  if (hull.length < 3) return true
  return line.slice(1).some((to, index) => {
    const from = line[index] as Place
    let [start, end] = [0, 1]
    for (let side = 0; side < hull.length; side++) {
      const [ae, an] = hull[side] as Place
      const [be, bn] = hull[(side + 1) % hull.length] as Place
      const inward = ([e, n]: Place) => (be - ae) * (n - an) - (bn - an) * (e - ae)
      const [a, b] = [inward(from), inward(to)]
      if (a <= 0 && b <= 0) return false
      if (a < 0) start = Math.max(start, a / (a - b))
      else if (b < 0) end = Math.min(end, a / (a - b))
    }
    return end > start
  })
}

import { convexHull, isInHull } from '../convex-hull.ts'
import { type BarrierWays, barrierWays } from './barrier-ways.ts'
import type { SideOfBarrier } from './drift.ts'
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
  /** Of each barrier that ends inside: on which side of it a place lies, 1 to the left and -1 to the right of its base. */
  readonly sides: readonly SideOfBarrier[]
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
  return { places, indices, hull, ways: null, sides: [], reaches: () => true }
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
    sides: barriers
      .filter((line) => entersHull(line, part.hull))
      .map((line) => {
        const side = sideOf(line.map(turn), part.hull.map(turn), ways)
        return (east: number, north: number) => side(turn([east, north]))
      }),
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

/**
 * From the ways to both faces of a barrier's base (where it is farthest from an end that can be walked around): alike
 * beyond its ends, and nearly constant along each face. It gives each side a mean of its own, which fades out
 * around the end; without it, the ground beside a barrier would be drawn to the mean of both sides.
 */
function sideOf(line: readonly Place[], hull: readonly Place[], ways: BarrierWays): SideTurned {
  const spots: { at: Place; along: Place; far: number }[] = []
  const ends = [line[0], line.at(-1)].filter(
    (end): end is Place => end !== undefined && isInHull(hull, end, 0),
  )
  line.slice(1).forEach((to, index) => {
    const from = line[index] as Place
    for (let step = 0; step < 50; step++) {
      const share = (step + 0.5) / 50
      const at: Place = [from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]
      if (!isInHull(hull, at, 0)) continue
      const far = Math.min(...ends.map((end) => Math.hypot(end[0] - at[0], end[1] - at[1])))
      spots.push({ at, along: [to[0] - from[0], to[1] - from[1]], far })
    }
  })
  const base = spots.toSorted((a, b) => b.far - a.far)[0]
  if (!base) return () => 0
  const length = Math.hypot(...base.along)
  const hair = 1e-6 * length
  const across: Place = [(-base.along[1] / length) * hair, (base.along[0] / length) * hair]
  const left: Place = [base.at[0] + across[0], base.at[1] + across[1]]
  const right: Place = [base.at[0] - across[0], base.at[1] - across[1]]
  return (place) => {
    const [toLeft, toRight] = [ways.length(place, left), ways.length(place, right)]
    const share = (toRight - toLeft) / (toRight + toLeft)
    return Number.isFinite(share) ? Math.sign(share) * Math.abs(share) ** 0.25 : 0
  }
}

type SideTurned = (place: Place) => number

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

type Place = readonly [east: number, north: number]
type Wall = readonly [from: Place, to: Place]

/** Shortest ways between places that no barrier crosses. */
export interface BarrierWays {
  /** Metres; infinite where there is no way. */
  length(one: Place, other: Place): number
}

/**
 * Ways around barriers: straight where nothing is between, else along the corners and ends of barriers (each passed
 * at a hair's breadth, on the side that it is passed on). Only ends and corners that `mayPass` can be walked around:
 * the ground beyond the outermost points is not known to join anything. A place on a barrier belongs to its left side.
 */
export function barrierWays(
  barriers: readonly (readonly Place[])[],
  hairMetres: number,
  mayPass: (place: Place) => boolean,
): BarrierWays {
  const walls: Wall[] = barriers.flatMap((line) =>
    line.slice(1).map((to, index): Wall => [line[index] as Place, to]),
  )
  const isClear = (a: Place, b: Place) => walls.every((wall) => !crosses(wall, a, b))
  const turns = walls
    .flat()
    .filter((place, index, all) => all.findIndex((other) => near(place, other, hairMetres)) === index)
    .filter(mayPass)
    .flatMap((corner) => besides(corner, walls, hairMetres))
  const count = turns.length
  const between = turns.map((a) =>
    turns.map((b) => (isClear(a, b) ? distance(a, b) : Number.POSITIVE_INFINITY)),
  )
  for (let via = 0; via < count; via++)
    for (const row of between)
      for (let to = 0; to < count; to++)
        row[to] = Math.min(row[to] as number, (row[via] as number) + (between[via]?.[to] as number))
  const seenFrom = (place: Place) =>
    turns.map((turn) => (isClear(place, turn) ? distance(place, turn) : Number.POSITIVE_INFINITY))
  // Ways are asked for from one target to many points, and from every target to the same points.
  const kept = new Map<Place, readonly number[]>()
  let last: { readonly place: Place; readonly onwards: readonly number[] } | null = null
  const onwardsFrom = (place: Place): readonly number[] => {
    if (last?.place === place) return last.onwards
    const seen = seenFrom(place)
    const onwards = turns.map((_, to) =>
      seen.reduce(
        (least, length, from) => Math.min(least, length + (between[from]?.[to] as number)),
        Number.POSITIVE_INFINITY,
      ),
    )
    last = { place, onwards }
    return onwards
  }
  const keptFrom = (place: Place): readonly number[] => {
    const known = kept.get(place)
    if (known) return known
    const seen = seenFrom(place)
    kept.set(place, seen)
    return seen
  }
  return {
    length(one, other) {
      if (isClear(one, other)) return distance(one, other)
      const onwards = onwardsFrom(one)
      return keptFrom(other).reduce(
        (least, length, turn) => Math.min(least, length + (onwards[turn] as number)),
        Number.POSITIVE_INFINITY,
      )
    },
  }
}

/** Half-open on both: a way through a corner of two walls crosses one of them, and a place on a wall lies on its left. */
function crosses([a, b]: Wall, p: Place, q: Place): boolean {
  const left = (s: Place, t: Place, x: Place) =>
    (t[0] - s[0]) * (x[1] - s[1]) - (t[1] - s[1]) * (x[0] - s[0]) >= 0
  return left(a, b, p) !== left(a, b, q) && left(p, q, a) !== left(p, q, b)
}

/** Places a hair from a corner, one in the middle of every angle between the walls that meet there. */
function besides(corner: Place, walls: readonly Wall[], hair: number): readonly Place[] {
  const angles = walls
    .flatMap(([a, b]) => [
      ...(distanceToWall([a, b], corner) <= hair && !near(a, corner, hair) ? [angle(corner, a)] : []),
      ...(distanceToWall([a, b], corner) <= hair && !near(b, corner, hair) ? [angle(corner, b)] : []),
    ])
    .toSorted((a, b) => a - b)
  return angles.map((from, index) => {
    const to = angles[index + 1] ?? (angles[0] as number) + 2 * Math.PI
    const middle = (from + to) / 2
    return [corner[0] + 4 * hair * Math.cos(middle), corner[1] + 4 * hair * Math.sin(middle)]
  })
}

function distanceToWall([a, b]: Wall, place: Place): number {
  const [de, dn] = [b[0] - a[0], b[1] - a[1]]
  const along = ((place[0] - a[0]) * de + (place[1] - a[1]) * dn) / (de * de + dn * dn || 1)
  const share = Math.min(1, Math.max(0, along))
  return distance(place, [a[0] + share * de, a[1] + share * dn])
}

const angle = (from: Place, to: Place) => Math.atan2(to[1] - from[1], to[0] - from[0])
const distance = (a: Place, b: Place) => Math.hypot(a[0] - b[0], a[1] - b[1])
const near = (a: Place, b: Place, slack: number) => distance(a, b) <= slack

/** A directed way of two points or more: east and north, alternating. */
export type Path = readonly number[]

export interface JoinedLine {
  /** East and north, alternating; a closed line repeats its first point at its end. */
  readonly coordinates: readonly number[]
  readonly closed: boolean
}

/**
 * Joins directed paths end to start into lines. Paths of two points without length are dropped. Where several lines
 * pass one end, each turns as far to its left side's keeping as it can, so that what lies on the left stays one piece
 * and lines touch there but do not cross.
 */
export function joinPaths(paths: readonly Path[]): readonly JoinedLine[] {
  const leaving = new PlaceMap<number[]>()
  const arriving = new PlaceMap<number>()
  const used = paths.map(
    (path) => path.length < 4 || (path.length === 4 && path[0] === path[2] && path[1] === path[3]),
  )
  paths.forEach((path, index) => {
    if (used[index]) return
    const [fe, fn] = path as [number, number]
    const list = leaving.get(fe, fn)
    if (list) list.push(index)
    else leaving.set(fe, fn, [index])
    const [te, tn] = endOf(path)
    arriving.set(te, tn, (arriving.get(te, tn) ?? 0) + 1)
  })
  const follow = (first: number): JoinedLine => {
    const [startE, startN] = paths[first] as [number, number]
    const coordinates = [startE, startN]
    let index: number | undefined = first
    while (index !== undefined) {
      used[index] = true
      const path: Path = paths[index] as Path
      for (let at = 2; at < path.length; at++) coordinates.push(path[at] as number)
      const [te, tn] = endOf(path)
      const free = (leaving.get(te, tn) ?? []).filter((other) => !used[other] || other === first)
      const back = [(path.at(-4) as number) - te, (path.at(-3) as number) - tn] as const
      index = firstClockwise(paths, free, back)
      if (index === first) break
    }
    return {
      coordinates,
      closed: coordinates.at(-2) === startE && coordinates.at(-1) === startN,
    }
  }
  const lines: JoinedLine[] = []
  // Open lines first, from where more paths leave than arrive; what is left then closes.
  paths.forEach((path, index) => {
    const [fe, fn] = path as [number, number]
    if (!used[index] && (leaving.get(fe, fn)?.length ?? 0) > (arriving.get(fe, fn) ?? 0))
      lines.push(follow(index))
  })
  paths.forEach((_, index) => {
    if (!used[index]) lines.push(follow(index))
  })
  return lines
}

const endOf = (path: Path): readonly [number, number] => [path.at(-2) as number, path.at(-1) as number]

/** Of the paths that leave here, the first met turning clockwise from the way back. */
function firstClockwise(
  paths: readonly Path[],
  free: readonly number[],
  [backE, backN]: readonly [number, number],
): number | undefined {
  if (free.length < 2) return free[0]
  const back = Math.atan2(backN, backE)
  let best: number | undefined
  let least = Number.POSITIVE_INFINITY
  for (const index of free) {
    const [fe, fn, te, tn] = paths[index] as [number, number, number, number]
    const clockwise = (back - Math.atan2(tn - fn, te - fe) + 4 * Math.PI) % (2 * Math.PI)
    if (clockwise < least) {
      least = clockwise
      best = index
    }
  }
  return best
}

/** A map by exact position. */
class PlaceMap<V> {
  readonly #byEast = new Map<number, Map<number, V>>()

  get(east: number, north: number): V | undefined {
    return this.#byEast.get(east)?.get(north)
  }

  set(east: number, north: number, value: V): void {
    const byNorth = this.#byEast.get(east)
    if (byNorth) byNorth.set(north, value)
    else this.#byEast.set(east, new Map([[north, value]]))
  }
}

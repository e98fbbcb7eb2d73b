/** Directed segments, four numbers each: from east, from north, to east, to north. */
export type Segments = number[]

export interface JoinedLine {
  /** East and north, alternating; a closed line repeats its first point at its end. */
  readonly coordinates: readonly number[]
  readonly closed: boolean
}

/**
 * Joins directed segments end to start into lines. Segments without length are dropped. Where several lines pass
 * one point, each turns as far to its left side's keeping as it can, so that what lies on the left stays one piece
 * and lines touch there but do not cross.
 */
export function joinSegments(segments: Segments): readonly JoinedLine[] {
  const leaving = new PlaceMap<number[]>()
  const arriving = new PlaceMap<number>()
  const used: boolean[] = []
  const count = segments.length / 4
  for (let index = 0; index < count; index++) {
    const [fe, fn, te, tn] = segmentAt(segments, index)
    used.push(fe === te && fn === tn)
    if (used[index]) continue
    const list = leaving.get(fe, fn)
    if (list) list.push(index)
    else leaving.set(fe, fn, [index])
    arriving.set(te, tn, (arriving.get(te, tn) ?? 0) + 1)
  }
  const follow = (first: number): JoinedLine => {
    const [startE, startN] = segmentAt(segments, first)
    const coordinates = [startE, startN]
    let index: number | undefined = first
    while (index !== undefined) {
      used[index] = true
      const [fe, fn, te, tn]: Segment = segmentAt(segments, index)
      coordinates.push(te, tn)
      const free = (leaving.get(te, tn) ?? []).filter((other) => !used[other] || other === first)
      index = firstClockwise(segments, free, fe - te, fn - tn)
      if (index === first) break
    }
    return {
      coordinates,
      closed: coordinates.at(-2) === startE && coordinates.at(-1) === startN,
    }
  }
  const lines: JoinedLine[] = []
  // Open lines first, from where more segments leave than arrive; what is left then closes.
  for (let index = 0; index < count; index++) {
    if (used[index]) continue
    const [fe, fn] = segmentAt(segments, index)
    if ((leaving.get(fe, fn)?.length ?? 0) > (arriving.get(fe, fn) ?? 0)) lines.push(follow(index))
  }
  for (let index = 0; index < count; index++) if (!used[index]) lines.push(follow(index))
  return lines
}

type Segment = readonly [fromEast: number, fromNorth: number, toEast: number, toNorth: number]

const segmentAt = (segments: Segments, index: number): Segment => [
  segments[4 * index] as number,
  segments[4 * index + 1] as number,
  segments[4 * index + 2] as number,
  segments[4 * index + 3] as number,
]

/** Of the segments that leave here, the first met turning clockwise from the way back. */
function firstClockwise(
  segments: Segments,
  free: readonly number[],
  backE: number,
  backN: number,
): number | undefined {
  if (free.length < 2) return free[0]
  const back = Math.atan2(backN, backE)
  let best: number | undefined
  let least = Number.POSITIVE_INFINITY
  for (const index of free) {
    const [fe, fn, te, tn] = segmentAt(segments, index)
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

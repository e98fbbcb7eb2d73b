/** One segment of a casing: its middle, its length, and by how much its top moved against its base. */
export interface Segment {
  readonly depthMetres: number
  readonly gaugeLengthMetres: number
  /** Millimetres; null where it gave no value. */
  readonly incrementMillimetres: number | null
}

export interface Deflection {
  readonly depthMetres: number
  readonly millimetres: number
}

/**
 * Movement of a casing by depth, added up from the end assumed still, mm, in the sense of its increments (top
 * of a segment against its base). Ordered downwards, with the still end at 0. Adding up stops at the first
 * segment without a value or at a gap between segments: beyond it nothing is known, `complete` is false.
 */
export function cumulativeDeflection(
  segments: readonly Segment[],
  fixedEnd: 'toe' | 'head',
): { readonly places: readonly Deflection[]; readonly complete: boolean } {
  const ordered = segments.toSorted((left, right) =>
    fixedEnd === 'toe' ? right.depthMetres - left.depthMetres : left.depthMetres - right.depthMetres,
  )
  const sense = fixedEnd === 'toe' ? -1 : 1
  const first = ordered[0]
  if (!first) return { places: [], complete: false }
  let depthMetres = first.depthMetres - (sense * first.gaugeLengthMetres) / 2
  let millimetres = 0
  let complete = true
  const places: Deflection[] = [{ depthMetres, millimetres }]
  for (const segment of ordered) {
    const begins = segment.depthMetres - (sense * segment.gaugeLengthMetres) / 2
    if (segment.incrementMillimetres === null || Math.abs(begins - depthMetres) > 0.01) {
      complete = false
      break
    }
    // Going down from a still head, the base of a segment moves against its top the other way round.
    millimetres -= sense * segment.incrementMillimetres
    depthMetres = begins + sense * segment.gaugeLengthMetres
    places.push({ depthMetres, millimetres: millimetres + 0 })
  }
  return {
    places: fixedEnd === 'toe' ? places.toReversed() : places,
    complete,
  }
}

import { combine } from '../reduction/uncertainty.ts'
import type { SeriesJoin } from '../site/tables.ts'

/** A stretch of an earlier series, put on the level of the one that carries on from it. */
export interface JoinedPart {
  /** Series whose values they are, point/measure. */
  readonly series: string
  /** It stands from here on, inclusive; null: from its beginning. */
  readonly fromEpochMs: number | null
  /** Up to the join, exclusive. */
  readonly untilEpochMs: number
  /** Added to its values, in the unit that both have: the offsets of all joins between, taken away. */
  readonly shift: number
  /** Of that shift: those of all joins between, in quadrature. */
  readonly standardUncertainty: number
  /** Joins between it and the series that carries on, that series' own first. */
  readonly joins: readonly SeriesJoin[]
}

/**
 * What came before a series, latest first: each stretch ends where the next one takes over, and chains of joins add up.
 * Nothing of the series themselves is changed. A series that carries on from several is taken to do so from the one
 * joined last; a ring ends where it closes.
 */
export function joinedParts(joins: readonly SeriesJoin[], series: string): readonly JoinedPart[] {
  const parts: JoinedPart[] = []
  const gone: SeriesJoin[] = []
  const seen = new Set([series])
  let untilEpochMs = Number.POSITIVE_INFINITY
  for (let join = lastJoin(joins, series); join !== null; join = lastJoin(joins, join.follows)) {
    if (seen.has(join.follows)) break
    seen.add(join.follows)
    gone.push(join)
    untilEpochMs = Math.min(untilEpochMs, join.at)
    parts.push({
      series: join.follows,
      fromEpochMs: lastJoin(joins, join.follows)?.at ?? null,
      untilEpochMs,
      shift: gone.reduce((sum, { offset }) => sum - offset, 0),
      standardUncertainty: combine(...gone.map((one) => one.standardUncertainty)),
      joins: [...gone],
    })
  }
  return parts.filter(({ fromEpochMs, untilEpochMs: until }) => fromEpochMs === null || fromEpochMs < until)
}

const lastJoin = (joins: readonly SeriesJoin[], series: string): SeriesJoin | null =>
  joins.filter((join) => join.series === series).toSorted((one, other) => other.at - one.at)[0] ?? null

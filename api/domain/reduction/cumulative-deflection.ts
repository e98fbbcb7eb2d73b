/** End of a string of segments that is assumed still. */
export type FixedEnd = 'toe' | 'head'

/**
 * Displacements added up from the still end along a string of segments, listed from the top down. An increment is
 * the movement of a segment's top against its base, in the sense of the result.
 * With a fixed toe entry i is the displacement of the top of segment i; with a fixed head it is that of its base, and
 * increments are taken away: against its top the base moves the other way. The still end itself is 0 and not listed.
 * From a missing segment on everything is unknown: a sum that skipped it would look like a profile and be none.
 */
export function cumulativeDeflection(
  increments: readonly (number | null)[],
  fixedEnd: FixedEnd,
): readonly (number | null)[] {
  const outward = fixedEnd === 'toe' ? increments.toReversed() : increments
  let sum: number | null = 0
  const sums = outward.map((increment) => {
    if (sum === null || increment === null) sum = null
    else sum = fixedEnd === 'toe' ? sum + increment : sum - increment
    return sum
  })
  return fixedEnd === 'toe' ? sums.toReversed() : sums
}

/** The displacement of greatest magnitude, with its sign; null where any is unknown. Of equal ones the positive. */
export function greatestDeflection(cumulative: readonly (number | null)[]): number | null {
  const known = cumulative.filter((value) => value !== null)
  if (known.length === 0 || known.length < cumulative.length) return null
  const highest = Math.max(...known)
  const lowest = Math.min(...known)
  return highest >= -lowest ? highest : lowest
}

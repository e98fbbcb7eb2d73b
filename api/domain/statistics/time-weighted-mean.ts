/**
 * Mean over time by trapezoids between readings, leaving out stretches longer than `longestGapMs`: a gap is
 * neither filled nor bridged. NaN where nothing is left. Instants ascending, epoch milliseconds.
 */
export function timeWeightedMean(
  atEpochMs: ArrayLike<number>,
  values: ArrayLike<number>,
  longestGapMs = Number.POSITIVE_INFINITY,
): number {
  let area = 0
  let length = 0
  for (let at = 1; at < atEpochMs.length; at++) {
    const span = (atEpochMs[at] as number) - (atEpochMs[at - 1] as number)
    if (span > longestGapMs) continue
    area += (span * ((values[at] as number) + (values[at - 1] as number))) / 2
    length += span
  }
  return length === 0 ? Number.NaN : area / length
}

/** Mean over time where each value holds until the next, the last until `untilEpochMs` (tips, levels, states). */
export function heldMean(
  atEpochMs: ArrayLike<number>,
  values: ArrayLike<number>,
  untilEpochMs: number,
): number {
  let area = 0
  for (let at = 0; at < atEpochMs.length; at++) {
    const end = at + 1 < atEpochMs.length ? (atEpochMs[at + 1] as number) : untilEpochMs
    area += (end - (atEpochMs[at] as number)) * (values[at] as number)
  }
  return area / (untilEpochMs - (atEpochMs[0] as number))
}

/** A run of alerts that came close together: instants of its first and last, and how many. */
export interface AlertRun {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  readonly count: number
}

/**
 * More than ten alerts in ten minutes are a flood, and three of one level within an hour are chattering: from memory of
 * alarm-management practice.
 */
export const flood = { atLeast: 11, withinMs: 600_000 } as const
export const chattering = { atLeast: 3, withinMs: 3_600_000 } as const

/**
 * Runs in which at least so many instants lie within a length of time (less than it between first and last), those
 * that overlap joined. Instants may come in any order.
 */
export function closeRuns(
  atEpochMs: readonly number[],
  { atLeast, withinMs }: { readonly atLeast: number; readonly withinMs: number },
): readonly AlertRun[] {
  const sorted = atEpochMs.toSorted((one, other) => one - other)
  const runs: { first: number; last: number }[] = []
  for (let first = 0; first + atLeast <= sorted.length; first++) {
    const last = first + atLeast - 1
    if ((sorted[last] as number) - (sorted[first] as number) >= withinMs) continue
    const before = runs.at(-1)
    if (before && before.last >= first) before.last = last
    else runs.push({ first, last })
  }
  return runs.map(({ first, last }) => ({
    fromEpochMs: sorted[first] as number,
    untilEpochMs: sorted[last] as number,
    count: last - first + 1,
  }))
}

/** Values in a row, from a place on. */
export interface Run {
  readonly from: number
  readonly length: number
}

/** Longest run in which every value is the very same as the one before it, of `value` only where it is given. */
export function longestRun(values: readonly number[], only?: number): Run {
  let best: Run = { from: 0, length: 0 }
  let from = 0
  for (let i = 1; i <= values.length; i++) {
    if (i < values.length && values[i] === values[i - 1]) continue
    if (i - from > best.length && (only === undefined || values[from] === only))
      best = { from, length: i - from }
    from = i
  }
  return best
}

/** Aborts the previous call; a superseded call resolves to undefined, and so does its failure. */
export function latestOnly<A, T>(task: (arg: A, signal: AbortSignal) => Promise<T>) {
  let current: AbortController | undefined
  return async (arg: A): Promise<T | undefined> => {
    current?.abort()
    const mine = new AbortController()
    current = mine
    try {
      const value = await task(arg, mine.signal)
      return mine.signal.aborted ? undefined : value
    } catch (cause) {
      if (mine.signal.aborted) return undefined
      throw cause
    }
  }
}

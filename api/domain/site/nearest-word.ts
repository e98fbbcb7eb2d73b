/**
 * The word of the list that needs the fewest single-letter changes to become `written`, ignoring case;
 * null where even the nearest needs more than a third of the longer word (and more than two).
 */
export function nearestWord(written: string, words: Iterable<string>): string | null {
  let nearest: string | null = null
  let fewest = Number.POSITIVE_INFINITY
  const target = written.toLowerCase()
  for (const word of words) {
    const changes = letterChanges(target, word.toLowerCase())
    const allowed = Math.max(2, Math.floor(Math.max(target.length, word.length) / 3))
    if (changes <= allowed && changes < Math.min(fewest, word.length)) {
      fewest = changes
      nearest = word
    }
  }
  return nearest
}

/** Insertions, deletions, replacements and swaps of neighbours (optimal string alignment distance). */
function letterChanges(from: string, to: string): number {
  let before: number[] = []
  let previous = Array.from({ length: to.length + 1 }, (_, j) => j)
  for (let i = 1; i <= from.length; i++) {
    const current = [i]
    for (let j = 1; j <= to.length; j++) {
      const same = from[i - 1] === to[j - 1]
      let changes = Math.min(
        (previous[j] as number) + 1,
        (current[j - 1] as number) + 1,
        (previous[j - 1] as number) + (same ? 0 : 1),
      )
      if (i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1])
        changes = Math.min(changes, (before[j - 2] as number) + 1)
      current.push(changes)
    }
    before = previous
    previous = current
  }
  return previous[to.length] as number
}

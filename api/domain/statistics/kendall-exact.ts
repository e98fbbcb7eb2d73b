/**
 * Chance, two-sided, of a Mann–Kendall score at least as far from 0 among `count` values without ties and without
 * trend: all orders counted by their inversions (Kendall 1938). Exact while count! is a whole number of doubles (18).
 */
export function kendallExactTwoSided(score: number, count: number): number {
  let orders = [1]
  for (let size = 2; size <= count; size++) {
    const next = new Array<number>(orders.length + size - 1).fill(0)
    for (const [inversions, ways] of orders.entries())
      for (let more = 0; more < size; more++)
        next[inversions + more] = (next[inversions + more] as number) + ways
    orders = next
  }
  const pairs = (count * (count - 1)) / 2
  const fewest = (pairs - Math.abs(score)) / 2
  const all = orders.reduce((sum, ways) => sum + ways, 0)
  const tail = orders.slice(0, fewest + 1).reduce((sum, ways) => sum + ways, 0)
  return Math.min(1, (2 * tail) / all)
}

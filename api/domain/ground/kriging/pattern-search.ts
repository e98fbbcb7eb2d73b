/**
 * Highest place of a function, by steps along each axis that are halved where none leads higher (Hooke & Jeeves without
 * the leap). From a start near it; `steps` are the first steps, `halvings` how often they are halved.
 */
export function highestPlace(
  height: (place: readonly number[]) => number,
  start: readonly number[],
  steps: readonly number[],
  halvings: number,
): { readonly place: readonly number[]; readonly height: number } {
  let best = start
  let highest = height(start)
  for (let halved = 0; halved <= halvings; halved++) {
    let climbed = true
    // A ridge without an end is left after as many rounds as any hill in reach needs.
    for (let round = 0; climbed && round < 12; round++) {
      climbed = false
      for (const [axis, step] of steps.entries())
        for (const towards of [1, -1]) {
          const tried = best.with(axis, (best[axis] as number) + (towards * step) / 2 ** halved)
          const found = height(tried)
          if (!(found > highest)) continue
          best = tried
          highest = found
          climbed = true
          break
        }
    }
  }
  return { place: best, height: highest }
}

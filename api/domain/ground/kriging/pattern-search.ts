/**
 * Highest place of a function by steps along each axis and leaps on in the direction that they led (Hooke & Jeeves 1961),
 * halved where none leads higher. From a start near it; `steps` are the first steps, `halvings` how often they are halved.
 */
export function highestPlace(
  height: (place: readonly number[]) => number,
  start: readonly number[],
  steps: readonly number[],
  halvings: number,
): { readonly place: readonly number[]; readonly height: number } {
  let best = { place: start, height: height(start) }
  for (let halved = 0; halved <= halvings; halved++) {
    const reach = steps.map((step) => step / 2 ** halved)
    // A ridge without an end is left after as many rounds as any hill in reach needs.
    for (let round = 0; round < 12; round++) {
      const before = best
      const around = stepsAround(height, before, reach)
      if (around === before) break
      const ahead = around.place.map((at, axis) => 2 * at - (before.place[axis] as number))
      const leapt = stepsAround(height, { place: ahead, height: height(ahead) }, reach)
      best = leapt.height > around.height ? leapt : around
    }
  }
  return best
}

type Found = ReturnType<typeof highestPlace>

function stepsAround(
  height: (place: readonly number[]) => number,
  from: Found,
  reach: readonly number[],
): Found {
  let best = from
  for (const [axis, step] of reach.entries())
    for (const towards of [step, -step]) {
      const place = best.place.with(axis, (best.place[axis] as number) + towards)
      const found = height(place)
      if (!(found > best.height)) continue
      best = { place, height: found }
      break
    }
  return best
}

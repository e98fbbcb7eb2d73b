/**
 * Where a smooth function of a few numbers is greatest, by the simplex search of Nelder and Mead (1965), Computer Journal
 * 7:308–313, begun anew where it came to until that moves it no more. Values that are not finite count as the least.
 */
export function maximise(
  of: (at: readonly number[]) => number,
  start: readonly number[],
  steps: readonly number[],
): readonly number[] {
  let best = start
  for (let round = 0; round < 6; round++) {
    const next = search(of, best, steps)
    const moved = next.some(
      (value, at) => Math.abs(value - (best[at] as number)) > 1e-7 * (steps[at] as number),
    )
    best = next
    if (!moved) break
  }
  return best
}

function search(of: (at: readonly number[]) => number, start: readonly number[], steps: readonly number[]) {
  const cost = (at: readonly number[]) => {
    const value = -of(at)
    return Number.isFinite(value) ? value : Number.MAX_VALUE
  }
  const corner = (at: readonly number[]) => ({ at, cost: cost(at) })
  let simplex = [
    start,
    ...steps.map((step, axis) => start.map((one, at) => (at === axis ? one + step : one))),
  ]
    .map(corner)
    .toSorted((a, b) => a.cost - b.cost)
  for (let round = 0; round < 2000; round++) {
    const [first, worst] = [simplex[0], simplex.at(-1)] as [Corner, Corner]
    const next = simplex.at(-2) as Corner
    if (worst.cost - first.cost <= 1e-13 * (1 + Math.abs(first.cost))) break
    const kept = simplex.slice(0, -1)
    const middle = start.map(
      (_, axis) => kept.reduce((sum, { at }) => sum + (at[axis] as number), 0) / kept.length,
    )
    const towards = (by: number) =>
      corner(middle.map((one, axis) => one + by * ((worst.at[axis] as number) - one)))
    const turned = towards(-1)
    let taken: Corner | null = null
    if (turned.cost < first.cost) {
      const farther = towards(-2)
      taken = farther.cost < turned.cost ? farther : turned
    } else if (turned.cost < next.cost) taken = turned
    else {
      const nearer = towards(turned.cost < worst.cost ? -0.5 : 0.5)
      if (nearer.cost < Math.min(worst.cost, turned.cost)) taken = nearer
    }
    simplex = (
      taken
        ? [...kept, taken]
        : simplex.map(({ at }, place) =>
            place === 0 ? first : corner(at.map((one, axis) => (one + (first.at[axis] as number)) / 2)),
          )
    ).toSorted((a, b) => a.cost - b.cost)
  }
  return (simplex[0] as Corner).at
}

interface Corner {
  readonly at: readonly number[]
  readonly cost: number
}

/** Second derivatives of a function at a place, by differences over the steps given. */
export function curvature(
  of: (at: readonly number[]) => number,
  place: readonly number[],
  steps: readonly number[],
): readonly (readonly number[])[] {
  const moved = (a: number, up: number, b: number, right: number) =>
    of(
      place.map(
        (one, at) =>
          one + (at === a ? up * (steps[a] as number) : 0) + (at === b ? right * (steps[b] as number) : 0),
      ),
    )
  return place.map((_, a) =>
    place.map((_, b) => {
      const size = 4 * (steps[a] as number) * (steps[b] as number)
      return (moved(a, 1, b, 1) - moved(a, 1, b, -1) - moved(a, -1, b, 1) + moved(a, -1, b, -1)) / size
    }),
  )
}

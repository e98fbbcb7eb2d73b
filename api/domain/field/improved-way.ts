import { metresBetween, type Place } from '../geometry/straight-distance.ts'

/** A gain smaller than this is rounding. */
const leastGainMetres = 1e-9
const longestMoved = 3

/**
 * A short way through all places from where one stands (null: from any of them): the nearest next, then stretches
 * turned round, and up to three neighbours moved elsewhere, until neither shortens it. Not always the shortest there is.
 */
export function improvedWay<P extends Place>(from: Place | null, places: readonly P[]): readonly P[] {
  const way = nearestNext(from, places)
  const at = (place: number): Place | null => (place < 0 ? from : (way[place] ?? null))
  const between = (one: number, other: number) => leg(at(one), at(other))
  for (let shorter = true; shorter; ) {
    shorter = false
    for (let first = 0; first < way.length; first++)
      for (let last = first; last < way.length; last++) {
        const turned =
          between(first - 1, last) +
          between(first, last + 1) -
          between(first - 1, first) -
          between(last, last + 1)
        if (turned < -leastGainMetres) {
          way.splice(first, last - first + 1, ...way.slice(first, last + 1).reverse())
          shorter = true
        } else if (last - first < longestMoved && moveStretch(from, way, first, last)) shorter = true
      }
  }
  return way
}

/** Puts a stretch where it shortens the way most, turned round if that is shorter; false where no place does. */
function moveStretch<P extends Place>(from: Place | null, way: P[], first: number, last: number): boolean {
  const rest = [...way.slice(0, first), ...way.slice(last + 1)]
  const stretch = way.slice(first, last + 1)
  const [head, tail] = [stretch[0] ?? null, stretch.at(-1) ?? null]
  const at = (place: number): Place | null => (place < 0 ? from : (rest[place] ?? null))
  const cost = (place: number, begin: Place | null, end: Place | null) =>
    leg(at(place - 1), begin) + leg(end, at(place)) - leg(at(place - 1), at(place))
  let best = { place: first, turned: false, cost: cost(first, head, tail) - leastGainMetres }
  let moved = false
  for (let place = 0; place <= rest.length; place++)
    for (const turned of [false, true]) {
      const here = turned ? cost(place, tail, head) : cost(place, head, tail)
      if (here < best.cost) {
        best = { place, turned, cost: here }
        moved = true
      }
    }
  if (!moved) return false
  rest.splice(best.place, 0, ...(best.turned ? stretch.reverse() : stretch))
  way.splice(0, way.length, ...rest)
  return true
}

const leg = (one: Place | null, other: Place | null): number =>
  one === null || other === null ? 0 : metresBetween(one, other)

function nearestNext<P extends Place>(from: Place | null, places: readonly P[]): P[] {
  const rest = [...places]
  const way: P[] = []
  let here: Place | null = from ?? rest[0] ?? null
  while (rest.length > 0 && here !== null) {
    const standing: Place = here
    const away = rest.map((place) => metresBetween(standing, place))
    const [next] = rest.splice(away.indexOf(Math.min(...away)), 1)
    if (next === undefined) break
    way.push(next)
    here = next
  }
  return way
}

import { metresBetween, type Place } from '../geometry/straight-distance.ts'
import { improvedWay } from './improved-way.ts'

/** A place to be visited. */
export interface Stop extends Place {
  readonly id: string
  /** Lower goes first, whatever the way: 0 what cannot wait. Within one urgency the way decides. */
  readonly urgency: number
}

export interface WalkingOrder {
  readonly stops: readonly (Stop & { readonly legMetres: number })[]
  /** Straight distances added up; the works lie in between. */
  readonly totalMetres: number
}

/**
 * An order in which to visit places from where one stands: the urgent before the others, and within each urgency the
 * shortest way that could be found, straight lines between places. The shortest there is for up to nine
 * places of one urgency; beyond that by moving stretches and stops until nothing shortens it.
 */
export function walkingOrder(from: Place | null, stops: readonly Stop[]): WalkingOrder {
  const ordered: (Stop & { readonly legMetres: number })[] = []
  let at = from
  for (const urgency of [...new Set(stops.map((stop) => stop.urgency))].sort((a, b) => a - b)) {
    const group = stops.filter((stop) => stop.urgency === urgency)
    for (const stop of shortestWay(at, group)) {
      ordered.push({ ...stop, legMetres: at === null ? 0 : metresBetween(at, stop) })
      at = stop
    }
  }
  return { stops: ordered, totalMetres: ordered.reduce((sum, { legMetres }) => sum + legMetres, 0) }
}

function shortestWay(from: Place | null, stops: readonly Stop[]): readonly Stop[] {
  if (stops.length < 2) return stops
  return stops.length <= 9 ? exactWay(from, stops) : improvedWay(from, stops)
}

/** By the shortest way to every set of stops that ends at each of them. */
function exactWay(from: Place | null, stops: readonly Stop[]): readonly Stop[] {
  const count = stops.length
  const sets = 1 << count
  const best = new Float64Array(sets * count).fill(Infinity)
  const before = new Int8Array(sets * count).fill(-1)
  stops.forEach((stop, i) => {
    best[(1 << i) * count + i] = from === null ? 0 : metresBetween(from, stop)
  })
  for (let set = 1; set < sets; set++)
    for (let last = 0; last < count; last++) {
      const length = best[set * count + last] as number
      if (length === Infinity) continue
      for (let next = 0; next < count; next++) {
        if (set & (1 << next)) continue
        const place = (set | (1 << next)) * count + next
        const longer = length + metresBetween(stops[last] as Stop, stops[next] as Stop)
        if (longer < (best[place] as number)) {
          best[place] = longer
          before[place] = last
        }
      }
    }
  let set = sets - 1
  let last = 0
  for (let i = 1; i < count; i++)
    if ((best[set * count + i] as number) < (best[set * count + last] as number)) last = i
  const way: Stop[] = []
  while (last >= 0) {
    way.unshift(stops[last] as Stop)
    const previous = before[set * count + last] as number
    set ^= 1 << last
    last = previous
  }
  return way
}

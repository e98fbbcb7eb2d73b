import { onOneGrid } from './on-one-grid.ts'
import type { Trace } from './review-case.ts'

type Readings = Pick<Trace, 'atEpochMs' | 'values'>

/** A value of one series and the value of another that belongs to it. */
export interface ReadingPair {
  readonly atEpochMs: number
  readonly x: number
  readonly y: number
}

export interface PairedReadings {
  /** In order of time. */
  readonly pairs: readonly ReadingPair[]
  /** Readings, or means, of each that found no partner. */
  readonly leftOutX: number
  readonly leftOutY: number
}

/**
 * Readings of two series that are nearest to each other, both ways, and no more than `mostApartMs` apart; y is read `lagMs` after the x that it is
 * paired with. Swapping the series (and the sign of the lag) swaps x and y of every pair.
 */
export function pairNearest(
  x: Readings,
  y: Readings,
  { mostApartMs, lagMs }: { readonly mostApartMs: number; readonly lagMs: number },
): PairedReadings {
  const due = x.atEpochMs.map((at) => at + lagMs)
  const ofX = nearestOf(due, y.atEpochMs)
  const ofY = nearestOf(y.atEpochMs, due)
  const pairs = due.flatMap((at, i): readonly ReadingPair[] => {
    const j = ofX[i] as number
    const read = y.atEpochMs[j]
    if (read === undefined || ofY[j] !== i || Math.abs(read - at) > mostApartMs) return []
    return [{ atEpochMs: (read + at - lagMs) / 2, x: x.values[i] as number, y: y.values[j] as number }]
  })
  return { pairs, leftOutX: x.values.length - pairs.length, leftOutY: y.values.length - pairs.length }
}

/** Means of both over the same steps, y of the steps `lagMs` later. */
export function pairMeans(
  x: Readings,
  y: Readings,
  {
    fromEpochMs,
    untilEpochMs,
    stepMs,
    lagMs,
  }: {
    readonly fromEpochMs: number
    readonly untilEpochMs: number
    readonly stepMs: number
    readonly lagMs: number
  },
): PairedReadings {
  const grid = onOneGrid(fromEpochMs, untilEpochMs, stepMs)
  const means = grid.of(x)
  const later = grid.of({ atEpochMs: y.atEpochMs.map((at) => at - lagMs), values: y.values })
  let [onlyX, onlyY] = [0, 0]
  const pairs = Array.from(means).flatMap((value, step): readonly ReadingPair[] => {
    const other = later[step] as number
    const [hasX, hasY] = [Number.isFinite(value), Number.isFinite(other)]
    if (hasX && hasY) return [{ atEpochMs: fromEpochMs + (step + 0.5) * stepMs, x: value, y: other }]
    if (hasX) onlyX++
    if (hasY) onlyY++
    return []
  })
  return { pairs, leftOutX: onlyX, leftOutY: onlyY }
}

/** For each instant the index of the nearest of some others in order of time, the earlier of two alike; −1 of none. */
function nearestOf(instants: readonly number[], others: readonly number[]): readonly number[] {
  let place = 0
  return instants.map((at) => {
    const away = (i: number) => Math.abs((others[i] as number) - at)
    while (place + 1 < others.length && away(place + 1) < away(place)) place++
    return others.length === 0 ? -1 : place
  })
}

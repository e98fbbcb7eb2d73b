import { watchedBy } from '../levels/watched-by.ts'
import type { TriggerLevel } from '../site/tables.ts'
import type { WatchedValue } from './episode.ts'

/**
 * What a level watches at each reading of its series, in the level's unit, from values ordered by their instants.
 * `against` are those of the other series, needed for a difference alone. A level on silence or on other levels
 * watches no values: empty.
 */
export function watchedValues(
  level: Pick<TriggerLevel, 'watches' | 'windowMinutes' | 'changeSince'>,
  values: readonly WatchedValue[],
  against: readonly WatchedValue[] = [],
  /** Rate: those before it, which only belong to the windows of others, are left out. */
  fromEpochMs = Number.NEGATIVE_INFINITY,
): readonly WatchedValue[] {
  const windowMs = (level.windowMinutes ?? 0) * 60_000
  switch (watchedBy(level)) {
    case 'value':
      return values
    case 'change':
      return changes(values, level.changeSince ?? Number.NEGATIVE_INFINITY)
    case 'rate':
      return ratesPerDay(values, windowMs, fromEpochMs)
    case 'difference':
      return differences(values, against, windowMs)
    case 'silence':
    case 'combination':
      return []
  }
}

/** Values less the last one at or before an instant; without one there, no reading has a value. */
export function changes(values: readonly WatchedValue[], sinceEpochMs: number): readonly WatchedValue[] {
  const start = values.findLast(({ atEpochMs, value }) => atEpochMs <= sinceEpochMs && value !== null)
  return values.map((one) => less(one, start ?? null))
}

/**
 * Slope of the least-squares line through the readings of the window that ends at each, a day. At least three with a
 * value, spanning at least half of the window; otherwise that reading has none.
 */
export function ratesPerDay(
  values: readonly WatchedValue[],
  windowMs: number,
  fromEpochMs = Number.NEGATIVE_INFINITY,
): readonly WatchedValue[] {
  let first = 0
  return values.flatMap((one, last) => {
    if (one.atEpochMs < fromEpochMs) return []
    while ((values[first] as WatchedValue).atEpochMs < one.atEpochMs - windowMs) first++
    return [{ ...one, ...slope(values, first, last, windowMs) }]
  })
}

/** Values less the nearest earlier one of the other series, at most so old; without one, no value. */
export function differences(
  values: readonly WatchedValue[],
  others: readonly WatchedValue[],
  greatestAgeMs: number,
): readonly WatchedValue[] {
  const sound = others.filter(({ value }) => value !== null)
  let next = 0
  return values.map((one) => {
    while (next < sound.length && (sound[next] as WatchedValue).atEpochMs <= one.atEpochMs) next++
    const other = sound[next - 1] ?? null
    return less(one, other !== null && one.atEpochMs - other.atEpochMs <= greatestAgeMs ? other : null)
  })
}

const less = (one: WatchedValue, other: WatchedValue | null): WatchedValue => ({
  atEpochMs: one.atEpochMs,
  receivedAtEpochMs: Math.max(one.receivedAtEpochMs, other?.receivedAtEpochMs ?? one.receivedAtEpochMs),
  value: one.value === null || other === null || other.value === null ? null : one.value - other.value,
})

function slope(
  values: readonly WatchedValue[],
  first: number,
  last: number,
  windowMs: number,
): Pick<WatchedValue, 'value' | 'receivedAtEpochMs'> {
  const end = values[last] as WatchedValue
  const none = { value: null, receivedAtEpochMs: end.receivedAtEpochMs }
  if (end.value === null) return none
  let count = 0
  let sumDays = 0
  let sum = 0
  let oldest = end.atEpochMs
  let receivedAtEpochMs = end.receivedAtEpochMs
  for (let at = last; at >= first; at--) {
    const one = values[at] as WatchedValue
    if (one.value === null) continue
    count++
    sumDays += days(one, end)
    sum += one.value
    oldest = one.atEpochMs
    receivedAtEpochMs = Math.max(receivedAtEpochMs, one.receivedAtEpochMs)
  }
  if (count < 3 || end.atEpochMs - oldest < windowMs / 2) return none
  let squares = 0
  let products = 0
  for (let at = first; at <= last; at++) {
    const one = values[at] as WatchedValue
    if (one.value === null) continue
    const away = days(one, end) - sumDays / count
    squares += away * away
    products += away * (one.value - sum / count)
  }
  return { value: squares > 0 ? products / squares : null, receivedAtEpochMs }
}

const days = (one: WatchedValue, end: WatchedValue): number => (one.atEpochMs - end.atEpochMs) / 86_400_000

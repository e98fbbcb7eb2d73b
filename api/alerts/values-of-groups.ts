import type { WatchedValue } from '#domain/alerts/episode.ts'
import { valuesOfSeries } from '../slices/values-of-series.ts'
import type { FoldRequest } from './fold-request.ts'

/** All values of some series in [fromEpochMs, untilEpochMs), by their numbers, in order of time. */
export async function gatherValues(
  request: FoldRequest,
  series: readonly number[],
  fromEpochMs: number,
  untilEpochMs: number,
) {
  const values = new Map<number, WatchedValue[]>()
  await askValues(request, series, fromEpochMs, untilEpochMs, (part) => {
    for (const [one, own] of part) {
      const known = values.get(one)
      if (known === undefined) values.set(one, [...own])
      else for (const value of own) known.push(value)
    }
  })
  return values
}

/** The same values, told month by month, so that no more than a month of them is in memory. */
export const askValues = (
  { store, site, plan }: FoldRequest,
  series: readonly number[],
  fromEpochMs: number,
  untilEpochMs: number,
  onValues: (values: ReadonlyMap<number, readonly WatchedValue[]>, fromEpochMs: number) => void,
): Promise<void> =>
  valuesOfSeries({
    store,
    site,
    needed: plan.needs.neededBy(series),
    series,
    fromEpochMs,
    untilEpochMs,
    onValues,
  })

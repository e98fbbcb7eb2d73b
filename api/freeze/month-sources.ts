import { join } from 'node:path'
import { readIndex, type SliceIndex } from '../slices/slice-index.ts'
import type { KeptFrozenSet } from '../store/frozen-set-verbs.ts'
import { type MonthSource, readMonthHashes } from './month-files.ts'
import type { ReadingDays } from './reading-days.ts'
import { setFolder } from './set-folder.ts'

/** What is published holds the readings of the set where none beyond the bound, and none not yet published, touches a month. */
export const publishedSource = (
  folder: string,
  { months }: SliceIndex,
  days: ReadingDays,
  unpublished: { readonly fromEpochMs: number; readonly untilEpochMs: number } | null,
): MonthSource => ({
  folder,
  months,
  isSame: ({ fromEpochMs, untilEpochMs }) =>
    !days.beyondIn(fromEpochMs, untilEpochMs) &&
    (unpublished === null ||
      unpublished.fromEpochMs >= untilEpochMs ||
      unpublished.untilEpochMs <= fromEpochMs),
})

/**
 * Files of one content differ from one making to the next. A month that was frozen before is taken from there, even where it
 * was published again since, so that the same content is the same set.
 */
export async function earlierSources(
  folder: string,
  earlier: readonly KeptFrozenSet[],
  days: ReadingDays,
): Promise<readonly MonthSource[]> {
  const sources: MonthSource[] = []
  for (const { set } of earlier) {
    const own = setFolder(folder, set)
    const hashes = await readMonthHashes(join(own, 'months.json'))
    const months = await readIndexOf(join(own, 'slices'))
    if (!hashes || !months) continue
    sources.push({
      folder: join(own, 'slices'),
      months,
      isSame: ({ fromEpochMs, untilEpochMs }, name) =>
        hashes[name] === days.hashOf(fromEpochMs, untilEpochMs),
    })
  }
  return sources
}

/** Null: it is damaged; then its months are made anew. */
const readIndexOf = (folder: string): Promise<SliceIndex['months'] | null> =>
  readIndex(folder).then(
    ({ months }) => months,
    () => null,
  )

import type { FrozenSince } from '#contract/frozen-sets.ts'
import { groupBy } from '#domain/group-by.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'

/**
 * What is not in what is shown and would be, were the data frozen today, in one sentence that names every kind of record; null: nothing of what is shown. `places`: measuring
 * points and instruments that are shown; null: the whole site.
 */
export function sinceSentence(
  { readings, records }: Pick<FrozenSince, 'readings' | 'records'>,
  places: ReadonlySet<string> | null,
  timeZone: string,
): string | null {
  const isShown = (place: string | null) => places === null || place === null || places.has(place)
  const late = readings.filter(
    ({ series }) => places === null || (series !== null && places.has(series.split('/')[0] ?? '')),
  )
  const changed = records.filter(({ place }) => isShown(place))
  if (late.length === 0 && changed.length === 0) return null
  const count = late.reduce((sum, one) => sum + one.count, 0)
  const parts: string[] = []
  if (count > 0) {
    const last = Math.max(...late.map(({ lastReceivedEpochMs }) => lastReceivedEpochMs))
    parts.push(
      `${count} ${count === 1 ? 'reading' : 'readings'} from before the cut-off, the last received ${formatShortInstant(last, timeZone)}`,
    )
  }
  parts.push(...namedRecords(changed))
  return `Not in these data, since they were frozen before: ${parts.join('; ')}.`
}

/** Of each kind of record, and of what became of it, the first by name and how many more there are. */
function namedRecords(records: FrozenSince['records']): readonly string[] {
  const alike = [...groupBy(records, ({ kind, what }) => `${kind} ${what}`).values()]
  return alike
    .toSorted((one, other) => weightOf(other) - weightOf(one))
    .flatMap(([first, ...more]) => {
      if (!first) return []
      const rest = more.length === 0 ? '' : `, and ${more.length} more like it`
      return `${withoutStop(lowered(first.sentence))}${rest}`
    })
}

/** Whatever is shown as looked through and is so no longer must not be lost behind corrections. */
const weightOf = ([first]: FrozenSince['records']): number =>
  first?.kind === 'approval' && first.what === 'withdrawn' ? 1 : 0

const withoutStop = (sentence: string): string => sentence.replace(/\.$/, '')
const lowered = (sentence: string): string => `${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`

import type { FrozenSince } from '#contract/frozen-sets.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'

/**
 * What is not in what is shown and would be, were the data frozen today, in one sentence; null: nothing of what is shown. `places`: measuring
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
  const [first] = changed
  if (first) {
    const more = changed.length - 1
    parts.push(
      `${withoutStop(lowered(first.sentence))}${more === 0 ? '' : `, and ${more} more ${more === 1 ? 'record' : 'records'}`}`,
    )
  }
  return `Not in these data, since they were frozen before: ${parts.join('; ')}.`
}

const withoutStop = (sentence: string): string => sentence.replace(/\.$/, '')
const lowered = (sentence: string): string => `${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`

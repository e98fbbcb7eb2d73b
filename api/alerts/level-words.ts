import type { Episode } from '#domain/alerts/episode.ts'
import { lengthText, levelWords } from '#domain/levels/level-words.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import { quantityText } from '#domain/reduction/number-text.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'

/** Series as messages speak of it. */
export interface SeriesWords {
  readonly unit: string
  readonly decimals: number
}

/** What was watched and how far it went, with its unit: `28.4 mm`; of a silence, what it means. */
export function sayWatched(level: TriggerLevel, episode: Episode | null, series: SeriesWords | null): string {
  const value = episode?.peakValue ?? level.value
  const amount = quantityText(
    series ? Number(value.toFixed(series.decimals + 1)) : value,
    series?.unit ?? '',
  ).trim()
  switch (watchedBy(level)) {
    case 'silence':
      return `no current data for more than ${lengthText(level.value)}`
    case 'combination':
      return `${value} of its levels held at once`
    case 'change':
      return `changed by ${amount}`
    case 'rate':
      return `${amount} a day`
    case 'difference':
      return `${amount} away from ${level.against ?? 'another series'}`
    case 'value':
      return amount
  }
}

/** The level itself: `28 mm or more`. A series that is not known has no unit. */
export const sayLevel = (
  level: TriggerLevel,
  series: SeriesWords | null,
  sayAt: (epochMs: number) => string,
): string => levelWords(level, series?.unit ?? '', sayAt).reached.replaceAll('  ', ' ')

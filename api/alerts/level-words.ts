import type { Episode } from '#domain/alerts/episode.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'

/** Series as messages speak of it. */
export interface SeriesWords {
  readonly unit: string
  readonly decimals: number
}

/** What was watched and how far it went, with its unit: `28.4 mm`; of a silence, what it means. */
export function sayWatched(level: TriggerLevel, episode: Episode | null, series: SeriesWords | null): string {
  const value = episode?.peakValue ?? level.value
  switch (watchedBy(level)) {
    case 'silence':
      return `no current data, for more than ${sayMinutes(level.value)}`
    case 'combination':
      return `${value} of its levels reached at once`
    default:
      return sayAmount(level, value, series)
  }
}

/** The level itself: `28 mm or more`. */
export function sayLevel(level: TriggerLevel, series: SeriesWords | null): string {
  const way = { above: 'or more', below: 'or less', either: 'or more, either way' }[level.direction]
  switch (watchedBy(level)) {
    case 'silence':
      return `no reading for more than ${sayMinutes(level.value)}`
    case 'combination':
      return `${level.value} or more at once of: ${level.against ?? ''}`
    case 'rate':
      return `${sayAmount(level, level.value, series)} ${way}, over ${sayMinutes(level.windowMinutes ?? 0)}`
    default:
      return `${sayAmount(level, level.value, series)} ${way}`
  }
}

function sayAmount(level: TriggerLevel, value: number, series: SeriesWords | null): string {
  const number = series ? `${value.toFixed(series.decimals)} ${series.unit}` : String(value)
  switch (watchedBy(level)) {
    case 'change':
      return `change of ${number}`
    case 'rate':
      return `${number} a day`
    case 'difference':
      return `${number} away from ${level.against ?? 'another series'}`
    default:
      return number
  }
}

/** Minutes as people say them: `90 min`, `26 h`, `3 d`. */
function sayMinutes(minutes: number): string {
  if (minutes < 120) return `${Math.round(minutes)} min`
  if (minutes < 48 * 60) return `${Math.round(minutes / 60)} h`
  return `${Math.round(minutes / 1440)} d`
}

import type { Episode } from '#domain/alerts/episode.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'

/** Series as messages speak of it. */
export interface SeriesWords {
  readonly unit: string
  readonly decimals: number
}

/** What was watched and how far it went, with its unit: `28.4 mm`. */
export function sayWatched(level: TriggerLevel, episode: Episode | null, series: SeriesWords | null): string {
  return sayNumber(level, episode?.peakValue ?? level.value, series)
}

/** The level itself: `28 mm or more`. */
export function sayLevel(level: TriggerLevel, series: SeriesWords | null): string {
  const value = sayNumber(level, level.value, series)
  const way = { above: 'or more', below: 'or less', either: 'or more, either way' }[level.direction]
  return `${value} ${way}`
}

const sayNumber = (_level: TriggerLevel, value: number, series: SeriesWords | null): string =>
  series ? `${value.toFixed(series.decimals)} ${series.unit}` : String(value)

import { levelWords } from '#domain/levels/level-words.ts'
import { watchedBy } from '#domain/levels/watched-by.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { formatAge, formatShortInstant } from '../../ui/format-instant.ts'
import { formatValue, readableDecimals, withUnit } from '../../ui/format-value.ts'
import { measureNames } from '../../ui/kind-names.ts'
import type { AlertNaming } from './alert-naming.ts'

/** The project's own name of a level with its number: `Action (Level 2)`. */
export function levelName(level: number, { levelNames }: Pick<AlertNaming, 'levelNames'>): string {
  const name = levelNames[level - 1]
  return name === undefined || name === `Level ${level}` ? `Level ${level}` : `${name} (Level ${level})`
}

/** When a level counts as reached: `22 mm or more for 3 readings`. */
export const reachedWords = (level: TriggerLevel, { seriesOf, timeZone }: AlertNaming): string =>
  levelWords(level, seriesOf(level.series)?.unit ?? '', (at) => formatShortInstant(at, timeZone)).reached

/**
 * How far what a level watches went, with the decimals that its uncertainty leaves a meaning: `24.3 mm`, `2.1 mm a day`.
 * Null for a silence, of which only time can be said.
 */
export function watchedValue(value: number, level: TriggerLevel, { seriesOf }: AlertNaming): string | null {
  const series = seriesOf(level.series)
  const decimals = series ? readableDecimals(series.decimals, series.standardUncertainty) : 2
  const amount = withUnit(formatValue(value, decimals), series?.unit ?? '')
  switch (watchedBy(level)) {
    case 'silence':
      return null
    case 'combination':
      return `${value} of its levels at once`
    case 'change':
      return `a change of ${amount}`
    case 'rate':
      return `${amount} a day`
    case 'difference':
      return `${amount} away from ${level.against ?? 'the other series'}`
    case 'value':
      return amount
  }
}

/** Point and measure that a level watches, in words. */
export function watchedName(series: string, { seriesOf }: AlertNaming): string {
  const one = seriesOf(series)
  return one ? `${one.point}, ${measureNames[one.measure].toLowerCase()}` : series
}

/** Time allowed for a response, in words. */
export const allowedWords = (withinMinutes: number): string => formatAge(withinMinutes * 60_000)

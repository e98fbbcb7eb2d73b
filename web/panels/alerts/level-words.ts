import type { TriggerLevel } from '#domain/site/tables.ts'
import { formatAge } from '../../ui/format-instant.ts'
import { formatValue, readableDecimals, withUnit } from '../../ui/format-value.ts'
import { measureNames } from '../../ui/kind-names.ts'
import type { AlertNaming } from './alert-naming.ts'

/** The project's own name of a level with its number: `Action (Level 2)`. */
export function levelName(level: number, { levelNames }: Pick<AlertNaming, 'levelNames'>): string {
  const name = levelNames[level - 1]
  return name === undefined || name === `Level ${level}` ? `Level ${level}` : `${name} (Level ${level})`
}

/** What a level says of its series: `above 22 mm`. */
export function levelWords({ series, direction, value }: TriggerLevel, { seriesOf }: AlertNaming): string {
  const unit = seriesOf(series)?.unit ?? ''
  const number = String(Number(value.toPrecision(9))).replace('-', '−')
  return direction === 'either'
    ? `${withUnit(number, unit)} either way`
    : `${direction} ${withUnit(number, unit)}`
}

/** A value of what a level watches, with its unit and the decimals that its uncertainty leaves a meaning. */
export function watchedValue(value: number, { series }: TriggerLevel, { seriesOf }: AlertNaming): string {
  const one = seriesOf(series)
  if (!one) return String(value)
  return withUnit(formatValue(value, readableDecimals(one.decimals, one.standardUncertainty)), one.unit)
}

/** Point and measure that a level watches, in words. */
export function watchedName(series: string, { seriesOf }: AlertNaming): string {
  const one = seriesOf(series)
  return one ? `${one.point}, ${measureNames[one.measure].toLowerCase()}` : series
}

/** Time allowed for a response, in words. */
export const allowedWords = (withinMinutes: number): string => formatAge(withinMinutes * 60_000)

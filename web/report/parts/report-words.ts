import type { Series } from '#contract/site-document.ts'
import { dayText, instantText, siteDay } from '#domain/report/site-days.ts'
import { formatValue, withUnit } from '../../ui/format-value.ts'
import { measureNames } from '../../ui/kind-names.ts'
import type { ReportSources } from '../report-sources.ts'

/** Numbers and instants of a report in words, by the clocks of its site. */
export const wordsOf = ({ now }: Pick<ReportSources, 'now'>) => {
  const { timeZone } = now.site.facts
  const at = (epochMs: number | null) => (epochMs === null ? '–' : instantText(epochMs, timeZone))
  const year = ` ${instantText(now.set.cutOffEpochMs, timeZone).split(' ')[2]}`
  return {
    at,
    /** Without the year where it is that of the cut-off: for tables. */
    short: (epochMs: number | null) => at(epochMs).replace(year, ''),
    day: (epochMs: number) => dayText(siteDay(epochMs, timeZone)),
    /** Last day of a stretch whose end is exclusive. */
    lastDay: (untilEpochMs: number) => dayText(siteDay(untilEpochMs - 1, timeZone)),
  }
}

/** `PZ-01A pore pressure`. */
export const seriesName = ({ point, measure }: Pick<Series, 'point' | 'measure'>): string =>
  `${point} ${measureWords(measure)}`

/** Names of measures within a sentence: what follows a capital letter keeps its own. */
export const measureWords = (measure: Series['measure']): string =>
  measureNames[measure].slice(0, 1).toLowerCase() + measureNames[measure].slice(1)

/** Series as one name: each where they are few, else their measures and the points from first to last. */
export function namesOfSeries(series: readonly Pick<Series, 'point' | 'measure'>[]): string {
  const points = [...new Set(series.map(({ point }) => point))]
  const measures = [...new Set(series.map(({ measure }) => measureWords(measure)))]
  if (series.length <= 2) return series.map(seriesName).join(', ')
  const places =
    points.length <= 4 ? points.join(', ') : `${points[0]} to ${points.at(-1)} (${points.length} points)`
  return `${places}: ${measures.join(', ')}`
}

export const valueWords = (value: number | null, { decimals, unit }: Pick<Series, 'decimals' | 'unit'>) =>
  value === null ? 'no value' : withUnit(formatValue(value, decimals), unit)

/** A change with its sign: `+1.2`, `−0.4`, `0.0`. */
export function signedValue(value: number | null, decimals: number): string {
  const text = formatValue(value, decimals)
  return value !== null && /[1-9]/.test(text) && value > 0 ? `+${text}` : text
}

/** `64 %`, `less than 1 %`, `none`: a share never rounds to nothing or to all where it is neither. */
export function shareWords(part: number, all: number): string {
  if (all === 0) return 'none to tell of'
  const percent = (100 * part) / all
  if (part === 0) return '0 %'
  if (part === all) return '100 %'
  if (percent < 1) return 'less than 1 %'
  return percent > 99 ? 'more than 99 %' : `${Math.round(percent)} %`
}

export const countWords = (count: number, one: string, more = `${one}s`): string =>
  `${thousands(count)} ${count === 1 ? one : more}`

/** `12 345`: groups of three by a narrow space that does not break (ISO 80000-1). */
export const thousands = (count: number): string =>
  String(count).replaceAll(/\B(?=(\d{3})+(?!\d))/g, '\u202f')

/** Length of time in its two largest units, rounded down: `3 d 4 h`, `45 min`. */
export function lengthWords(lengthMs: number): string {
  const minutes = Math.floor(lengthMs / 60_000)
  if (minutes < 60) return `${minutes} min`
  const [hours, restMinutes] = [Math.floor(minutes / 60), minutes % 60]
  if (hours < 48) return restMinutes === 0 ? `${hours} h` : `${hours} h ${restMinutes} min`
  const restHours = hours % 24
  return restHours === 0 ? `${Math.floor(hours / 24)} d` : `${Math.floor(hours / 24)} d ${restHours} h`
}

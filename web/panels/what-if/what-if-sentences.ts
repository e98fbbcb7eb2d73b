import type { Series } from '#contract/site-document.ts'
import type { Episode } from '#domain/alerts/episode.ts'
import { periodAt } from '#domain/reduction/series-uncertainty.ts'
import type { LevelCompared } from '#domain/what-if/compare-levels.ts'
import type { SeriesComparison } from '#domain/what-if/compare-series.ts'
import { formatShortInstant } from '../../ui/format-instant.ts'
import { formatValue, readableDecimals, withUnit } from '../../ui/format-value.ts'

/** A difference with its sign and unit: 0 has none. */
export function signedText(value: number, { decimals, unit }: Pick<Series, 'decimals' | 'unit'>): string {
  const text = formatValue(Math.abs(value), decimals)
  const sign = Number(value.toFixed(decimals)) === 0 ? '' : value < 0 ? '−' : '+'
  return withUnit(`${sign}${text}`, unit)
}

/** How the sandbox stands against the official series, whole sentences. */
export function differenceSentences(
  { count, changed, mean, low, high, standardDeviation, lost, gained }: SeriesComparison,
  series: Series,
  zone: string,
): readonly string[] {
  if (count === 0 || mean === null || low === null || high === null)
    return [
      'No reading has a value both officially and in the sandbox: nothing can be compared.',
      ...lossSentences(lost, gained),
    ]
  if (changed === 0)
    return [`All ${count} readings are as they are officially.`, ...lossSentences(lost, gained)]
  const own = uncertaintyAt(series, high.atEpochMs)
  const told = { ...series, decimals: readableDecimals(series.decimals, own) }
  return [
    `${changed} of ${count} readings differ. Sandbox less official: mean ${signedText(mean, told)}, from ${signedText(low.value, told)} (${formatShortInstant(low.atEpochMs, zone)}) to ${signedText(high.value, told)} (${formatShortInstant(high.atEpochMs, zone)})${standardDeviation === null ? '' : `, standard deviation ${withUnit(formatValue(standardDeviation, told.decimals), series.unit)}`}.`,
    ...lossSentences(lost, gained),
    uncertaintySentence(series, own),
  ]
}

function lossSentences(lost: number, gained: number): readonly string[] {
  return [
    ...(lost > 0
      ? [`${lost} ${lost === 1 ? 'reading loses its' : 'readings lose their'} value in the sandbox.`]
      : []),
    ...(gained > 0
      ? [
          `${gained} ${gained === 1 ? 'reading that has no value officially has' : 'readings that have no value officially have'} one in the sandbox.`,
        ]
      : []),
  ]
}

const uncertaintyAt = (series: Series, atEpochMs: number): number | null =>
  periodAt(series.uncertaintyPeriods ?? [], atEpochMs)?.standardUncertainty ?? series.standardUncertainty

/** Two values rounded to a step q differ by their rounding alone with a standard uncertainty of q/√6. */
function uncertaintySentence(series: Series, own: number | null): string {
  const rounding = 10 ** -series.decimals / Math.sqrt(6)
  const known = `Both are made from the same readings, whose noise cancels: the difference is known to ± ${withUnit(String(Number((1.96 * rounding).toPrecision(2))), series.unit)} (95 %, rounding).`
  return own === null
    ? `${known} How well the values themselves are known is not stated.`
    : `${known} Each value itself is known to ± ${withUnit(String(Number((1.96 * own).toPrecision(2))), series.unit)} (95 %), officially; a smaller difference does not tell which is nearer the truth.`
}

/** What becomes of a level, in a sentence. */
export function fateSentence(
  { level, official, sandbox, fate }: LevelCompared,
  name: string,
  zone: string,
): string {
  const what = `${name} (${level.id})`
  switch (fate) {
    case 'now-reached':
      return `${what} would have been reached: ${episodesText(sandbox, zone)}. Officially it was not.`
    case 'no-more':
      return `${what} would not have been reached. Officially it was: ${episodesText(official, zone)}.`
    case 'otherwise':
      return `${what} would have been reached at other times: ${episodesText(sandbox, zone)}; officially ${episodesText(official, zone)}.`
    case 'as-before':
      return `${what} is reached as it is officially: ${episodesText(official, zone)}.`
    case 'never':
      return `${what} is reached neither officially nor in the sandbox.`
  }
}

const mostTold = 3

/** Stretches in which a level stood, the last ones in full. */
export function episodesText(episodes: readonly Episode[], zone: string): string {
  if (episodes.length === 0) return 'not reached'
  const told = episodes.slice(-mostTold).map(({ heldAtEpochMs, leftAtEpochMs }) => {
    const from = formatShortInstant(heldAtEpochMs ?? Number.NaN, zone)
    return leftAtEpochMs === null
      ? `from ${from} on`
      : `${from} to ${formatShortInstant(leftAtEpochMs, zone)}`
  })
  const more = episodes.length - told.length
  return `${more > 0 ? `${more} times before, then ` : ''}${told.join('; ')}`
}

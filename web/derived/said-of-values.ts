import type { SiteDocument } from '#contract/site-document.ts'
import { standingVerdicts } from '#domain/site/standing-verdicts.ts'
import type { Measure } from '#domain/site/vocabulary.ts'

/** Which values of some series a person called doubtful or rejected, and that they are in it all the same; null: none. */
export function verdictSentence(
  { verdicts, verdictWithdrawals }: Pick<SiteDocument, 'verdicts' | 'verdictWithdrawals'>,
  series: readonly string[],
  atEpochMs: number,
  sinceEpochMs = atEpochMs,
): string | null {
  const wanted = new Set(series)
  const found = standingVerdicts(verdicts, verdictWithdrawals).filter(
    (one) =>
      one.verdict !== 'accepted' &&
      wanted.has(one.series) &&
      one.fromAt <= atEpochMs &&
      (one.untilAt ?? Number.POSITIVE_INFINITY) > sinceEpochMs,
  )
  if (found.length === 0) return null
  const said = found.map(({ id, series: of, verdict }) => `${of} (${verdict}, ${id})`)
  return `A person found ${said.join(', ')}; a verdict takes no value away, so they are in it.`
}

/** How many series of a measure are left away for their unit; null: none. */
export function otherUnitsSentence(
  { series }: Pick<SiteDocument, 'series'>,
  measure: Measure,
  unit: string,
): string | null {
  const others = series.filter((one) => one.measure === measure && one.unit !== unit)
  return others.length === 0
    ? null
    : `Not in it, for they are not in ${unit}: ${others.map(({ id }) => id).join(', ')}.`
}

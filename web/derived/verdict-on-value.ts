import type { SiteDocument } from '#contract/site-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { standingVerdicts } from '#domain/site/standing-verdicts.ts'

/** Of a series and the instant of one of its values what a person found of it: "found rejected, V-3"; empty: nothing that speaks against it. */
export type FoundOf = (series: string, atEpochMs: number | null) => string

/**
 * What persons found of values. A verdict takes no value away and lowers no level: a value that was doubted or rejected is
 * shown and judged like others, and must not look like others.
 */
export function foundOfValues({
  verdicts,
  verdictWithdrawals,
}: Pick<SiteDocument, 'verdicts' | 'verdictWithdrawals'>): FoundOf {
  const against = groupBy(
    standingVerdicts(verdicts, verdictWithdrawals).filter(({ verdict }) => verdict !== 'accepted'),
    ({ series }) => series,
  )
  return (series, atEpochMs) => {
    if (atEpochMs === null) return ''
    const found = against
      .get(series)
      ?.find(
        ({ fromAt, untilAt }) => fromAt <= atEpochMs && atEpochMs < (untilAt ?? Number.POSITIVE_INFINITY),
      )
    return found ? `found ${found.verdict}, ${found.id}` : ''
  }
}

import type { Series, SiteDocument } from '#contract/site-document.ts'
import { limitsOfSensor } from '#domain/flags/limits-in-force.ts'
import { standingVerdicts } from '#domain/site/standing-verdicts.ts'
import type { HistorySeries } from './history-props.ts'

/** What marks of a series' readings are told with, and what people found about them. */
export const saidOf = (
  document: Pick<SiteDocument, 'checkLimits' | 'verdicts' | 'verdictWithdrawals'>,
  series: Series,
): Pick<HistorySeries, 'checkLimits' | 'verdicts'> => ({
  checkLimits: series.made ? null : limitsOfSensor(series, document.checkLimits),
  verdicts: standingVerdicts(
    document.verdicts.filter((verdict) => verdict.series === series.id),
    document.verdictWithdrawals,
  ),
})

import type { Series } from '#contract/site-document.ts'
import { type SeriesState, seriesState } from '#domain/levels/series-state.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import { siteDocument } from '../state/site-document.ts'
import { describeState } from './describe-point.ts'

/** A reading that was known at an instant; null value: it gave none. */
export interface KnownReading {
  readonly atEpochMs: number
  readonly value: number | null
}

/** How a series stood at an instant by the last reading known then, held against the levels in force then. */
export function knownState(series: Series, last: KnownReading | null, asOfEpochMs: number): SeriesState {
  const document = siteDocument()
  return seriesState({
    series: series.series,
    last: last === null ? null : { ...last, receivedAtEpochMs: last.atEpochMs, quality: 0, flags: 0 },
    levels: valueLevels(document?.triggerLevels ?? [], document?.stages ?? []).filter(
      (level) => level.series === series.id,
    ),
    asOfEpochMs,
    lateAfterMinutes: series.lateAfterMinutes,
  })
}

/** The same in words. */
export const knownStateWords = (series: Series, last: KnownReading | null, asOfEpochMs: number): string =>
  describeState(
    series,
    knownState(series, last, asOfEpochMs),
    asOfEpochMs,
    siteDocument()?.facts.levelNames ?? [],
  )

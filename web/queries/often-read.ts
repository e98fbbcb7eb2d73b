import type { Series } from '#contract/site-document.ts'

type ReadSeries = Pick<Series, 'series' | 'intervalMinutes'>

/**
 * Numbers of series read oftener than hourly. Hour buckets cannot tell their last value at or before an instant within or
 * at the beginning of an hour: the readings themselves are asked (`refineSeries`).
 */
export const oftenRead = (series: readonly ReadSeries[]): readonly number[] =>
  series.filter(({ intervalMinutes }) => intervalMinutes < 60).map((one) => one.series)

/** What a question of last values is asked of: these series, those read often by their readings too. */
export const lastOf = (series: readonly ReadSeries[]) => ({
  series: series.map((one) => one.series),
  refineSeries: oftenRead(series),
})

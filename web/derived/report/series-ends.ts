import type { SiteDocument } from '#contract/site-document.ts'

/**
 * Series that ended rather than fell silent, by number: the first instant at which their point, their instrument, or a
 * place that they are made from was out of use.
 */
export function seriesEnds({
  series,
  points,
  instruments,
}: Pick<SiteDocument, 'series' | 'points' | 'instruments'>): ReadonlyMap<number, number> {
  const retired = new Map<string, number>()
  for (const { id, retiredAtEpochMs } of [...points, ...instruments])
    if (retiredAtEpochMs !== null)
      retired.set(id, Math.min(retiredAtEpochMs, retired.get(id) ?? Number.POSITIVE_INFINITY))
  return new Map(
    series.flatMap(({ series: number, point, endedAtEpochMs }) => {
      const ended = Math.min(
        endedAtEpochMs ?? Number.POSITIVE_INFINITY,
        retired.get(point) ?? Number.POSITIVE_INFINITY,
      )
      return Number.isFinite(ended) ? [[number, ended] as const] : []
    }),
  )
}

import type { SiteDocument } from '#contract/site-document.ts'

/**
 * Series that ended rather than fell silent, by number: the first instant at which their point, its instrument, or a
 * place that they need was out of use; what is made from a whole instrument ends with the last of its points at the latest. From that instant on a series is not judged, on the page and on paper.
 */
export function seriesEnds({
  series,
  points,
  instruments,
}: Pick<SiteDocument, 'series' | 'points' | 'instruments'>): ReadonlyMap<number, number> {
  const retired = new Map<string, number>()
  const retire = (id: string, atEpochMs: number | null | undefined) => {
    if (atEpochMs != null) retired.set(id, Math.min(atEpochMs, retired.get(id) ?? Number.POSITIVE_INFINITY))
  }
  for (const { id, retiredAtEpochMs } of instruments) retire(id, retiredAtEpochMs)
  const ofInstruments = new Map(retired)
  for (const { id, instrument, retiredAtEpochMs } of points) {
    retire(id, retiredAtEpochMs)
    retire(id, ofInstruments.get(instrument))
  }
  for (const { id, points: members } of instruments)
    if (members.length > 0)
      retire(id, Math.max(...members.map((member) => retired.get(member) ?? Number.POSITIVE_INFINITY)))
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

import { keptWith } from '../kept-with.ts'

/** What of a site's records says whether a series ended; the site document has it all. */
export interface SiteWithEnds {
  readonly series: readonly {
    /** Its number in slices. */
    readonly series: number
    /** Its point, or the instrument that makes it of its points. */
    readonly point: string
    /** Where a place that it needs was taken out of use; left out: none was. */
    readonly endedAtEpochMs?: number | undefined
  }[]
  readonly points: readonly {
    readonly id: string
    readonly instrument: string
    readonly retiredAtEpochMs: number | null
  }[]
  readonly instruments: readonly {
    readonly id: string
    /** Names of its points. */
    readonly points: readonly string[]
    readonly retiredAtEpochMs: number | null
  }[]
}

/**
 * Series that ended rather than fell silent, by number: the first instant at which their point, its instrument, or a
 * place that they need was out of use; what is made from a whole instrument ends with the last of its points at the latest.
 * From that instant on a series is not judged, on the page, on paper and in a review.
 */
export const seriesEnds = keptWith(
  ({ series, points, instruments }: SiteWithEnds): ReadonlyMap<number, number> => {
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
  },
)

/** Since when a series is out of use at an instant, by the same rule; null: it is in use. */
export function outOfUseSince(
  site: SiteWithEnds,
  { series }: { readonly series: number },
  atEpochMs: number,
): number | null {
  const end = seriesEnds(site).get(series)
  return end !== undefined && end <= atEpochMs ? end : null
}

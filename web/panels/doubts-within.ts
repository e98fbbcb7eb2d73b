import type { SiteDocument } from '#contract/site-document.ts'
import { standingVerdicts } from '#domain/site/standing-verdicts.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

type Site = Pick<SiteDocument, 'facts' | 'points' | 'series' | 'verdicts' | 'verdictWithdrawals'>

/** Readings of some instruments within a stretch that somebody found doubtful or rejected, a sentence for each verdict. */
export function doubtsWithin(
  site: Site,
  instruments: readonly string[],
  fromEpochMs: number,
  untilEpochMs: number,
): readonly string[] {
  const wanted = new Set(instruments)
  const instrumentOf = new Map(site.points.map(({ id, instrument }) => [id, instrument]))
  const own = new Set(
    site.series.flatMap(({ id, point }) => (wanted.has(instrumentOf.get(point) ?? point) ? [id] : [])),
  )
  const when = (at: number) => formatShortInstant(at, site.facts.timeZone)
  return standingVerdicts(site.verdicts, site.verdictWithdrawals).flatMap(
    ({ series, verdict, fromAt, untilAt, author }) => {
      const isWithin = fromAt < untilEpochMs && (untilAt ?? Number.POSITIVE_INFINITY) > fromEpochMs
      if (verdict === 'accepted' || !own.has(series) || !isWithin) return []
      const until = untilAt === null ? 'on, not ended' : `to ${when(untilAt)}`
      return [`${series} is ${verdict} by ${author} from ${when(fromAt)} ${until}.`]
    },
  )
}

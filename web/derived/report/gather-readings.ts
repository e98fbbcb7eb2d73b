import type { SeriesState } from '#contract/state-document.ts'
import { approvedStretches } from '#domain/approval/approved-stretches.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import type { ChannelReadings } from '#domain/report/channel-completeness.ts'
import { provisionalReadings } from '#domain/report/provisional-readings.ts'
import { oftenRead } from '../../queries/often-read.ts'
import { firstDays, valuesOfStretch } from '../../queries/report-values.ts'
import { seriesStatesAt } from '../../queries/series-states-at.ts'
import type { ReportSources } from '../../report/report-sources.ts'
import { type KnownThen, knownThen } from '../known-then.ts'
import { statesAt } from '../states-at.ts'
import { numberBySeries, readingsBySeries } from './series-parts.ts'

/** What a report asks of the readings before anything is drawn. */
export interface ReportReadings {
  /** States at the end of the period, by series number, and at its beginning. */
  readonly atEnd: ReadonlyMap<number, SeriesState>
  readonly atStart: ReadonlyMap<number, SeriesState>
  /** Readings of the period, and up to an hour beyond its ends for what is due there. */
  readonly ofPeriod: ReadonlyMap<number, ChannelReadings>
  /** UTC day of the first value of each series; absent: there is none. */
  readonly firstEpochMs: ReadonlyMap<number, number>
  /** Readings of the period, and those of them that nobody stands for; of every series. */
  readonly provisional: { readonly all: number; readonly provisional: number }
  readonly provisionalOf: (series: number) => { readonly all: number; readonly provisional: number }
}

const marginMs = 3_600_000

/** How every series of the frozen site stands at an instant, by its number. */
export async function statesOfSite(
  { now, ask }: Pick<ReportSources, 'now' | 'ask'>,
  atEpochMs: number,
): Promise<ReadonlyMap<number, SeriesState>> {
  const { series, triggerLevels, stages } = now.site
  const columns = await ask('now', seriesStatesAt({ atEpochMs, refineSeries: oftenRead(series) }))
  const levels = valueLevels(triggerLevels, stages)
  return new Map(statesAt(columns, series, levels, atEpochMs).map((state) => [state.series, state]))
}

/** How every series of the frozen site stood at an instant by what had been received then. */
export function knownOfSite(
  { now, ask }: Pick<ReportSources, 'now' | 'ask'>,
  atEpochMs: number,
): Promise<KnownThen> {
  const { series, triggerLevels, stages } = now.site
  const levels = valueLevels(triggerLevels, stages)
  return knownThen({ atEpochMs, series, levels }, (query) => ask('now', query))
}

/** Asks the engine for what holds at the ends of the period, and for every reading between them. */
export async function gatherReadings({ manifest, now, ask }: ReportSources): Promise<ReportReadings> {
  const { fromEpochMs, untilEpochMs } = manifest
  const { site } = now
  const [atEnd, atStart] = [
    await statesOfSite({ now, ask }, untilEpochMs),
    await statesOfSite({ now, ask }, fromEpochMs),
  ]
  const readings = await ask(
    'now',
    valuesOfStretch({ fromEpochMs: fromEpochMs - marginMs, untilEpochMs: untilEpochMs + marginMs }),
  )
  const ofPeriod = readingsBySeries(readings)
  const firsts = await ask('now', firstDays(untilEpochMs))
  const instrumentOf = new Map(site.points.map(({ id, instrument }) => [id, instrument]))
  const counts = new Map(
    site.series.map(({ series, point }) => {
      const own = ofPeriod.get(series)
      const approved = approvedStretches(site.approvals, instrumentOf.get(point) ?? point)
      const none = { all: 0, provisional: 0 }
      return [series, own ? provisionalReadings(own, approved, manifest) : none] as const
    }),
  )
  const sum = (of: 'all' | 'provisional') => [...counts.values()].reduce((total, one) => total + one[of], 0)
  return {
    atEnd,
    atStart,
    ofPeriod,
    firstEpochMs: numberBySeries(firsts, 'first_ms'),
    provisional: { all: sum('all'), provisional: sum('provisional') },
    provisionalOf: (series) => counts.get(series) ?? { all: 0, provisional: 0 },
  }
}

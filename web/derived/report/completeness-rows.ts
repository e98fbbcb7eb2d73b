import type { Series } from '#contract/site-document.ts'
import { type ChannelCompleteness, channelCompleteness } from '#domain/report/channel-completeness.ts'
import type { ReportManifest } from '#domain/report/report.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'
import type { FrozenDocuments } from '../../report/report-sources.ts'
import type { ReportReadings } from './gather-readings.ts'

export interface CompletenessRow {
  /** Logger or crew, and its channel: `LG-01`, `CH03`. */
  readonly logger: string
  readonly channel: string
  readonly series: Series
  readonly critical: boolean
  readonly counted: ChannelCompleteness
  /** Due only from here on, or until here, within the period; null: all of it. */
  readonly sinceEpochMs: number | null
  readonly endedEpochMs: number | null
  /** There was never a value of it. */
  readonly neverRead: boolean
}

/**
 * Every channel that is wired, or was until its point went out of use within the period, against what was due. A
 * channel is due from the UTC day of its first value on: the frozen data do not say when it was first to be read.
 */
export function completenessRows(
  { site, records }: Pick<FrozenDocuments, 'site' | 'records'>,
  { fromEpochMs, untilEpochMs }: Pick<ReportManifest, 'fromEpochMs' | 'untilEpochMs'>,
  readings: Pick<ReportReadings, 'ofPeriod' | 'firstEpochMs'>,
): readonly CompletenessRow[] {
  const wired = new Map(Object.entries(site.wiredTo).map(([id, text]) => [id, text.split(' / ')] as const))
  const unwired = new Map<string, number>()
  for (const { sensor, logger, channel, fromAt, untilAt } of records?.wiring ?? []) {
    if (site.wiredTo[sensor] !== undefined || untilAt === null) continue
    if (fromAt >= untilEpochMs || untilAt <= fromEpochMs || untilAt <= (unwired.get(sensor) ?? 0)) continue
    wired.set(sensor, [logger, channel])
    unwired.set(sensor, untilAt)
  }
  const ends = seriesEnds(site)
  return site.series
    .flatMap((series): CompletenessRow[] => {
      const [logger, channel] = wired.get(series.id) ?? []
      const ended = Math.min(
        ends.get(series.series) ?? Number.POSITIVE_INFINITY,
        unwired.get(series.id) ?? Number.POSITIVE_INFINITY,
      )
      if (series.made || logger === undefined || channel === undefined || ended <= fromEpochMs) return []
      const first = readings.firstEpochMs.get(series.series)
      const since = Math.max(fromEpochMs, first ?? fromEpochMs)
      const own = readings.ofPeriod.get(series.series) ?? noReadings
      return [
        {
          logger,
          channel,
          series,
          critical: series.critical,
          counted: channelCompleteness(own, {
            fromEpochMs: since,
            untilEpochMs: Math.min(untilEpochMs, ended),
            intervalMinutes: series.intervalMinutes,
            lateAfterMinutes: series.lateAfterMinutes,
          }),
          sinceEpochMs: since > fromEpochMs ? since : null,
          endedEpochMs: ended < untilEpochMs ? ended : null,
          neverRead: first === undefined,
        },
      ]
    })
    .sort(
      (one, other) =>
        compareText(one.logger, other.logger) ||
        compareText(one.channel, other.channel) ||
        one.series.series - other.series.series,
    )
}

const noReadings = {
  atEpochMs: new Float64Array(),
  value: new Float64Array(),
  receivedAfterSeconds: new Float64Array(),
}

/** By code units: the same order in every language of a machine. */
const compareText = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0)

import type { Series, SiteDocument } from '#contract/site-document.ts'
import { groupBy } from '#domain/group-by.ts'
import { seriesEnds } from '#domain/site/series-ends.ts'
import type { ReportReadings } from '../../derived/report/gather-readings.ts'
import { timeHistory } from '../../queries/time-history.ts'
import { withUnit } from '../../ui/format-value.ts'
import { isSilent } from '../../ui/state-scale.ts'
import {
  historyDiary,
  historyHolds,
  historySeries,
  historyStages,
  historyTraces,
} from '../../views/time-history/history-from-site.ts'
import type { HistoryTrace, TimeHistoryProps } from '../../views/time-history/history-props.ts'
import { historyRemarks } from '../../views/time-history/history-remarks.ts'
import { historyJoined, joinedSeries } from '../../views/time-history/joined-history.ts'
import { timeHistoryScene } from '../../views/time-history/scene.ts'
import { type Block, type Figure, heading, list, paragraph } from '../document.ts'
import type { ReportSources } from '../report-sources.ts'
import { measureWords, valueWords, wordsOf } from './report-words.ts'

/** Series of one figure; more would not be told apart. */
const mostSeries = 6
const mostFigures = 24
/** A value that has used so much of its first level is shown, whether it moved or not. */
const nearLevelShare = 0.75
/** So many periods are drawn, so that what was before can be seen. */
const periodsDrawn = 3

/**
 * Series that a reader must see over time: at a level, alerted in the period, critical and silent, or near a level; in
 * that order, and within it as the site has them.
 */
export function seriesToShow(
  { manifest, now }: Pick<ReportSources, 'manifest' | 'now'>,
  { atEnd }: Pick<ReportReadings, 'atEnd'>,
): readonly Series[] {
  const alerted = new Set(
    now.alerts.alerts
      .filter(
        ({ raisedAtEpochMs, closed }) =>
          raisedAtEpochMs < manifest.untilEpochMs &&
          (closed?.atEpochMs ?? Number.POSITIVE_INFINITY) >= manifest.fromEpochMs,
      )
      .flatMap(({ series }) => series ?? []),
  )
  const ends = seriesEnds(now.site)
  const concern = ({ series, id, critical }: Series): number => {
    const ended = ends.get(series) ?? Number.POSITIVE_INFINITY
    if (ended <= manifest.fromEpochMs) return 0
    const state = atEnd.get(series)
    if ((state?.level ?? 0) > 0) return 10 + (state?.level ?? 0)
    if (alerted.has(id)) return 3
    if (critical && ended > manifest.untilEpochMs && isSilent(state)) return 2
    return (state?.shareOfFirstLevel ?? 0) >= nearLevelShare ? 1 : 0
  }
  return now.site.series
    .map((series) => ({ series, weight: concern(series) }))
    .filter(({ weight }) => weight > 0)
    .toSorted((one, other) => other.weight - one.weight)
    .map(({ series }) => series)
}

/** Readings over time of what asks for attention, each instrument by itself, with levels and stages. */
export async function historiesPart(
  sources: ReportSources,
  readings: ReportReadings,
): Promise<readonly Block[]> {
  const { manifest, now } = sources
  const { site } = now
  const shown = seriesToShow(sources, readings)
  const part = heading(1, 'Readings over time')
  if (shown.length === 0)
    return [
      part,
      paragraph(
        'No series reached or came near a level, none was alerted, and no critical one is silent: none is drawn here of itself. Views that somebody chose stand at the end.',
      ),
    ]
  const instrumentOf = new Map(site.points.map(({ id, instrument }) => [id, instrument]))
  const groups = [...groupBy(shown, ({ point }) => instrumentOf.get(point) ?? point)].flatMap(
    ([instrument, series]) => partsOf(series).map((some) => ({ instrument, series: some })),
  )
  const fromEpochMs = drawnFrom(manifest, site)
  const words = wordsOf(sources)
  const blocks: Block[] = [
    part,
    paragraph(
      `Series that stand at a level, were alerted in the period, are critical and silent, or came within a quarter of a level, in this order; from ${words.day(fromEpochMs)} on, for what was before. The upright line is the end of the period.`,
    ),
  ]
  for (const { instrument, series } of groups.slice(0, mostFigures)) {
    sources.onProgress?.(`Readings over time of ${instrument} …`, 0.6)
    const { figure, remarks } = await historyFigure(sources, series, {
      fromEpochMs,
      untilEpochMs: manifest.untilEpochMs,
      caption: captionOf(instrument, series),
    })
    blocks.push(heading(2, captionOf(instrument, series)), figure, list(remarks))
  }
  const left = groups.slice(mostFigures)
  if (left.length > 0)
    blocks.push(
      paragraph(
        `Not drawn, for want of room: ${[...new Set(left.map(({ instrument }) => instrument))].join(', ')}. Their values stand in the tables.`,
      ),
    )
  return blocks
}

const captionOf = (instrument: string, series: readonly Series[]): string =>
  `${instrument}: ${[...new Set(series.map(({ measure }) => measureWords(measure)))].join(', ')}`

function partsOf(series: readonly Series[]): readonly (readonly Series[])[] {
  const parts: Series[][] = []
  for (let from = 0; from < series.length; from += mostSeries)
    parts.push(series.slice(from, from + mostSeries))
  return parts
}

function drawnFrom(
  { fromEpochMs, untilEpochMs }: { readonly fromEpochMs: number; readonly untilEpochMs: number },
  { stages }: SiteDocument,
): number {
  const first = Math.min(fromEpochMs, ...stages.map(({ startsAt }) => startsAt))
  return Math.max(first, untilEpochMs - periodsDrawn * (untilEpochMs - fromEpochMs))
}

/** One drawing of series over time, as the page draws it, and what is missing or doubtful in it. */
export async function historyFigure(
  { now, ask }: Pick<ReportSources, 'now' | 'ask'>,
  series: readonly Series[],
  wanted: { readonly fromEpochMs: number; readonly untilEpochMs: number; readonly caption: string },
): Promise<{ readonly figure: Figure; readonly remarks: readonly string[] }> {
  const { site } = now
  const { fromEpochMs, untilEpochMs, caption } = wanted
  const earlier = series.flatMap((one) => joinedSeries(site, one)).filter((one) => !series.includes(one))
  const asked = [...series, ...earlier]
  const question = timeHistory({
    fromEpochMs,
    untilEpochMs,
    // Half a year of hours is still drawn as hours: paper has finer dots than a screen.
    widthPixels: 2400,
    intervalMinutes: Math.min(...asked.map(({ intervalMinutes }) => intervalMinutes)),
    series: asked.map((one) => one.series),
  })
  const traces = historyTraces(await ask('now', question), question.resolution)
  const props: TimeHistoryProps = {
    fromEpochMs,
    untilEpochMs,
    clockEpochMs: untilEpochMs,
    spanEpochMs: [fromEpochMs, untilEpochMs],
    timeZone: site.facts.timeZone,
    series: series.map((one) => ({ ...historySeries(site, one), joined: historyJoined(site, one) })),
    companions: [],
    traces,
    holds: historyHolds(site, series),
    stages: historyStages(site),
    diary: historyDiary(site).filter(({ atEpochMs }) => atEpochMs >= fromEpochMs && atEpochMs < untilEpochMs),
    remarks: [],
    waiting: false,
  }
  const panes = new Set(series.map(({ measure, unit }) => `${measure} ${unit}`)).size
  return {
    figure: {
      block: 'figure',
      caption,
      alternative: alternativeOf({ now }, props, series),
      scope: 'time-history',
      scene: (room) => timeHistoryScene(props, room).marks,
      aspect: panes > 2 ? 1.1 : panes > 1 ? 1.4 : 2,
      tableId: null,
    },
    remarks: historyRemarks(props).map((one) => one.replace(/ Zoom in .*$/, '')),
  }
}

/** The drawing in words: what each series did within the window, and which levels stand in it. */
function alternativeOf(
  sources: Pick<ReportSources, 'now'>,
  { traces, fromEpochMs, untilEpochMs, series: drawn }: TimeHistoryProps,
  series: readonly Series[],
): string {
  const words = wordsOf(sources)
  const told = series.map((one, place) => {
    const trace = traces.find(({ series: number }) => number === one.series)
    const seen = trace ? extremes(trace, fromEpochMs, untilEpochMs) : null
    const name = `${one.point} ${measureWords(one.measure)}`
    if (!seen) return `${name}: no value between these dates.`
    const levels = drawn[place]?.levels ?? []
    const inForce = levels.filter(
      ({ validFromEpochMs, validUntilEpochMs }) =>
        validFromEpochMs < untilEpochMs && (validUntilEpochMs ?? untilEpochMs) > fromEpochMs,
    )
    return `${name}: ${valueWords(seen.first, one)} at first, ${valueWords(seen.last, one)} at last (${words.at(seen.lastEpochMs)}), between ${valueWords(seen.low, one)} and ${valueWords(seen.high, one)}.${inForce.map((level) => ` ${level.name} at ${withUnit(String(level.value).replace('-', '−'), one.unit)}.`).join('')}`
  })
  return `Readings over time from ${words.at(fromEpochMs)} to ${words.at(untilEpochMs)}. ${told.join(' ')}`
}

function extremes({ atEpochMs, value, low, high }: HistoryTrace, fromEpochMs: number, untilEpochMs: number) {
  let seen = null as { first: number; last: number; lastEpochMs: number; low: number; high: number } | null
  for (let row = 0; row < atEpochMs.length; row++) {
    const at = atEpochMs[row] as number
    const one = value[row] as number
    if (at < fromEpochMs || at > untilEpochMs || !Number.isFinite(one)) continue
    seen = {
      first: seen?.first ?? one,
      last: one,
      lastEpochMs: at,
      low: Math.min(seen?.low ?? one, low[row] as number),
      high: Math.max(seen?.high ?? one, high[row] as number),
    }
  }
  return seen
}

import type { Series, SiteDocument } from '#contract/site-document.ts'
import type { Resolution } from '#contract/slice-columns.ts'
import { approvedStretches } from '#domain/approval/approved-stretches.ts'
import { seriesEnvelope } from '#domain/levels/series-envelope.ts'
import { valueLevels } from '#domain/levels/value-levels.ts'
import type { Columns } from '../../engine/columns.ts'
import { withUnit } from '../../ui/format-value.ts'
import { measureNames } from '../../ui/kind-names.ts'
import { expectedOf } from './expected-marks.ts'
import type {
  HistoryCompanion,
  HistoryDiaryEntry,
  HistoryHold,
  HistorySeries,
  HistoryStage,
  HistoryTrace,
  LaterTrace,
} from './history-props.ts'
import { saidOf } from './said-of-series.ts'

/** Splits an answer to `timeHistory` into a trace a series. */
export function historyTraces(
  columns: Pick<Columns, 'rows' | 'number'>,
  resolution: Resolution,
): readonly HistoryTrace[] {
  const series = columns.number('series')
  const traces: HistoryTrace[] = []
  let start = 0
  for (let row = 1; row <= columns.rows; row++) {
    if (row < columns.rows && series[row] === series[start]) continue
    const part = (name: string) => columns.number(name).subarray(start, row)
    traces.push({
      series: series[start] as number,
      resolution,
      atEpochMs: part('at_ms'),
      value: part('value'),
      low: part('low'),
      high: part('high'),
      count: part('n'),
      quality: part('quality'),
      flags: part('flags'),
      ...(resolution === 'raw'
        ? { receivedAfterSeconds: part('received_after_s') }
        : { lastAtEpochMs: part('last_at_ms') }),
    })
    start = row
  }
  return columns.rows === 0 ? [] : traces
}

/** Splits an answer to `knownHistory` into what had been received and what came later, a trace a series. */
export function knownTraces(
  columns: Columns,
  resolution: Resolution,
): { readonly traces: readonly HistoryTrace[]; readonly later: readonly LaterTrace[] } {
  const known = columns.number('known')
  const rows = (wanted: 0 | 1) =>
    Array.from({ length: columns.rows }, (_, row) => row).filter((row) => known[row] === wanted)
  const part = (wanted: 0 | 1) => {
    const kept = rows(wanted)
    const only = (name: string) => {
      const all = columns.number(name)
      return Float64Array.from(kept, (row) => all[row] as number)
    }
    return { rows: kept.length, number: only }
  }
  const later = part(0)
  const received = ['first_received_ms', 'last_received_ms'].map((name) => later.number(name))
  const numbers = later.number('series')
  return {
    traces: historyTraces(part(1), resolution),
    later: historyTraces(later, resolution).map((trace) => {
      const own = (column: 0 | 1) =>
        (received[column] as Float64Array).filter((_, row) => numbers[row] === trace.series)
      return {
        ...trace,
        firstReceivedEpochMs: own(0).reduce((one, other) => Math.min(one, other), Number.POSITIVE_INFINITY),
        lastReceivedEpochMs: own(1).reduce((one, other) => Math.max(one, other), Number.NEGATIVE_INFINITY),
      }
    }),
  }
}

/** A series as the view over time wants it, with the trigger levels on its value and what is said of its readings. */
export function historySeries(
  document: Pick<
    SiteDocument,
    | 'triggerLevels'
    | 'facts'
    | 'checkLimits'
    | 'verdicts'
    | 'verdictWithdrawals'
    | 'approvals'
    | 'predictions'
    | 'stages'
    | 'points'
  >,
  series: Series,
): HistorySeries {
  return {
    series: series.series,
    name: series.point,
    measure: measureNames[series.measure],
    unit: series.unit,
    decimals: series.decimals,
    intervalMinutes: series.intervalMinutes,
    lateAfterMinutes: series.lateAfterMinutes,
    ...saidOf(document, series),
    approved: approvedStretches(document.approvals, instrumentOf(document, series)),
    expected: expectedOf(document, series),
    envelope: seriesEnvelope(document, series).map((span) => ({ ...span, stage: span.stage.name })),
    levels: valueLevels(document.triggerLevels, document.stages)
      .filter((level) => level.series === series.id)
      .map((level) => ({
        level: level.level,
        name: document.facts.levelNames[level.level - 1] ?? `Level ${level.level}`,
        value: level.value,
        direction: level.direction,
        validFromEpochMs: level.validFrom,
        validUntilEpochMs: level.validUntil,
      })),
  }
}

/** Of a point its instrument; what an instrument makes as a whole goes by the instrument's own name. */
const instrumentOf = (document: Pick<SiteDocument, 'points'>, { point }: Series): string =>
  document.points.find(({ id }) => id === point)?.instrument ?? point

/** Conditions for a stage that concern these series, as lines to be met before it. */
export function historyHolds(document: SiteDocument, series: readonly Series[]): readonly HistoryHold[] {
  const words = { last: '', 'day-mean': 'mean of a day ', 'week-mean': 'mean of a week ' } as const
  return document.holdPoints.flatMap((hold) => {
    const watched = series.find((one) => one.id === hold.series)
    const stage = document.stages.find((one) => one.id === hold.stage)
    if (!watched || !stage) return []
    const limit = hold.direction === 'at-most' ? 'at most' : 'at least'
    return [
      {
        series: watched.series,
        value: hold.value,
        untilEpochMs: stage.startsAt,
        sentence: `Before “${stage.name}”: ${words[hold.statistic]}${limit} ${withUnit(String(hold.value).replace('-', '−'), watched.unit)}`,
      },
    ]
  })
}

export const historyStages = (document: SiteDocument): readonly HistoryStage[] =>
  document.stages.map((stage) => ({
    name: stage.name,
    fromEpochMs: stage.startsAt,
    untilEpochMs: stage.endsAt,
  }))

export const historyDiary = (document: SiteDocument): readonly HistoryDiaryEntry[] =>
  document.diary.map((entry) => ({ atEpochMs: entry.at, text: entry.text }))

/** Weather, tide and pressure that may be laid below any history, where the site measures them. */
export function companionChoices(
  document: Pick<SiteDocument, 'series' | 'points'>,
): readonly { readonly name: string; readonly series: Series; readonly drawnAs: 'line' | 'bars' }[] {
  const kindOf = new Map(document.points.map((point) => [point.id, point.kind]))
  const find = (measure: Series['measure'], kind: string) =>
    document.series.find((series) => series.measure === measure && kindOf.get(series.point) === kind)
  const wanted = [
    ['Rain', find('rainfall', 'rain-gauge'), 'bars'],
    ['Tide', find('tide-level', 'tide-gauge'), 'line'],
    ['Air temperature', find('temperature', 'air-temperature'), 'line'],
    ['Barometer', find('barometric-pressure', 'barometer'), 'line'],
  ] as const
  return wanted.flatMap(([name, series, drawnAs]) => (series ? [{ name, series, drawnAs }] : []))
}

export const historyCompanion = (
  document: Pick<
    SiteDocument,
    | 'triggerLevels'
    | 'facts'
    | 'checkLimits'
    | 'verdicts'
    | 'verdictWithdrawals'
    | 'approvals'
    | 'predictions'
    | 'stages'
    | 'points'
  >,
  choice: { readonly series: Series; readonly drawnAs: 'line' | 'bars' },
): HistoryCompanion => ({
  series: { ...historySeries(document, choice.series), levels: [] },
  drawnAs: choice.drawnAs,
})

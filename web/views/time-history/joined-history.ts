import type { Series, SiteDocument } from '#contract/site-document.ts'
import { type JoinedPart, joinedParts } from '#domain/joins/joined-parts.ts'
import { periodAt } from '#domain/reduction/series-uncertainty.ts'
import { combine } from '#domain/reduction/uncertainty.ts'
import { formatInstant } from '../../ui/format-instant.ts'
import { withUnit } from '../../ui/format-value.ts'
import { measureNames } from '../../ui/kind-names.ts'
import type { HistoryJoined, HistorySeries, HistoryTrace } from './history-props.ts'
import { type Readout, readHistory } from './history-readout.ts'
import { saidOf } from './said-of-series.ts'

/** Series whose readings are needed to draw what one carries on from. */
export const joinedSeries = (
  document: Pick<SiteDocument, 'joins' | 'series'>,
  series: Series,
): readonly Series[] => partsOf(document, series).map(({ earlier }) => earlier)

/** What a series carries on from, as the view over time wants it. */
export const historyJoined = (
  document: Pick<
    SiteDocument,
    'joins' | 'series' | 'facts' | 'checkLimits' | 'verdicts' | 'verdictWithdrawals'
  >,
  series: Series,
): readonly HistoryJoined[] =>
  partsOf(document, series).map(({ part, earlier }) => {
    const own = periodAt(earlier.uncertaintyPeriods ?? [], part.untilEpochMs - 1)?.standardUncertainty
    const standardUncertainty = own === undefined ? null : combine(own, part.standardUncertainty)
    const size = (value: number) => withUnit(signless(value), earlier.unit)
    const two = (value: number) => withUnit(String(Number(value.toPrecision(2))), earlier.unit)
    const shift = `${part.shift < 0 ? '−' : '+'}${size(Math.abs(part.shift))}`
    const joins = part.joins.length === 1 ? 'the join' : `${part.joins.length} joins`
    return {
      series: {
        series: earlier.series,
        name: earlier.point,
        measure: measureNames[earlier.measure],
        unit: earlier.unit,
        decimals: earlier.decimals,
        intervalMinutes: earlier.intervalMinutes,
        levels: [],
        ...saidOf(document, earlier),
      },
      fromEpochMs: part.fromEpochMs,
      untilEpochMs: part.untilEpochMs,
      shift: part.shift,
      standardUncertainty,
      label: `joined from ${earlier.point}, offset ${shift}, ± ${two(part.standardUncertainty)}`,
      sentence: `Before ${formatInstant(part.untilEpochMs, document.facts.timeZone)}, in long pale dashes: ${earlier.point} on the level of ${series.point}, ${shift} added to its values by ${joins}. That offset has a standard uncertainty of ${two(part.standardUncertainty)}, which a change across it holds as well${standardUncertainty === null ? '' : `; with its own the values so drawn have ${two(standardUncertainty)}`}.`,
    }
  })

/** The traces of what a series carries on from, each cut to its stretch and put on that series' level. */
export const joinedTraces = (
  { joined = [] }: HistorySeries,
  traces: readonly HistoryTrace[],
): readonly { readonly joined: HistoryJoined; readonly trace: HistoryTrace }[] =>
  joined.flatMap((one) => {
    const trace = traces.find(({ series }) => series === one.series.series)
    return trace ? [{ joined: one, trace: cutAndShifted(trace, one) }] : []
  })

/** What the earlier series that stood at the clock said, on the level of the one that carries on. */
export const joinedReadouts = (
  series: HistorySeries,
  traces: readonly HistoryTrace[],
  clockEpochMs: number,
): readonly Readout[] =>
  joinedTraces(series, traces)
    .filter(
      ({ joined: { fromEpochMs, untilEpochMs } }) =>
        clockEpochMs >= (fromEpochMs ?? -Infinity) && clockEpochMs < untilEpochMs,
    )
    .map(({ joined, trace }) => {
      const readout = readHistory(joined.series, trace, clockEpochMs)
      return { ...readout, notes: [joined.label, ...readout.notes] }
    })

function cutAndShifted(
  trace: HistoryTrace,
  { fromEpochMs, untilEpochMs, shift }: HistoryJoined,
): HistoryTrace {
  const { atEpochMs } = trace
  let first = 0
  while (first < atEpochMs.length && (atEpochMs[first] as number) < (fromEpochMs ?? -Infinity)) first++
  let end = first
  while (end < atEpochMs.length && (atEpochMs[end] as number) < untilEpochMs) end++
  const shifted = (of: Float64Array) => of.subarray(first, end).map((value) => value + shift)
  // Written out, so that a column added to traces is not forgotten here, uncut.
  return {
    series: trace.series,
    resolution: trace.resolution,
    atEpochMs: atEpochMs.subarray(first, end),
    ...(trace.lastAtEpochMs ? { lastAtEpochMs: trace.lastAtEpochMs.subarray(first, end) } : {}),
    value: shifted(trace.value),
    low: shifted(trace.low),
    high: shifted(trace.high),
    count: trace.count.subarray(first, end),
    quality: trace.quality.subarray(first, end),
    flags: trace.flags.subarray(first, end),
    ...(trace.receivedAfterSeconds
      ? { receivedAfterSeconds: trace.receivedAfterSeconds.subarray(first, end) }
      : {}),
  }
}

const partsOf = (
  { joins, series: all }: Pick<SiteDocument, 'joins' | 'series'>,
  series: Series,
): readonly { readonly part: JoinedPart; readonly earlier: Series }[] =>
  joinedParts(joins, series.id).flatMap((part) => {
    const earlier = all.find(({ id }) => id === part.series)
    return earlier ? [{ part, earlier }] : []
  })

/** Offsets of a chain are added up: without the last digits of binary fractions. */
const signless = (value: number): string => String(Number(value.toPrecision(6)))

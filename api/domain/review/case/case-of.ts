import { groupBy } from '../../group-by.ts'
import { keptWith } from '../../kept-with.ts'
import { seriesEnvelope } from '../../levels/series-envelope.ts'
import { outOfUseSince } from '../../site/series-ends.ts'
import type { Neighbour, ReviewCase, SingleReading, Trace } from '../review-case.ts'
import type { Companions, PlacedSeries } from './companions.ts'
import { foundIn, withoutStretches } from './found-in.ts'
import { type AroundLogger, loggerRecord } from './logger-record.ts'
import { notesOf } from './notes-of.ts'
import type { ReadColumns, ReviewedSeries, ReviewedSite } from './reviewed-site.ts'

/** What was read, as the two questions of `review-readings.ts` answer. */
export interface ReadForReview {
  readonly hours: ReadColumns
  /** Of the series reviewed. */
  readonly readings: ReadColumns
}

interface Asked {
  readonly subject: ReviewedSeries
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
  readonly companions: Companions
  /** The reading that is asked about by itself, with what was read there; left out: none is. */
  readonly single?: { readonly atEpochMs: number; readonly raw: SingleReading['raw'] } | null
}

/**
 * Everything that is looked at of one series, put together from what was read and what is on record. `hours` may be given
 * where several are put together of one answer.
 */
export function reviewCaseOf(
  site: ReviewedSite,
  { subject, fromEpochMs, asOfEpochMs, companions, single }: Asked,
  read: ReadForReview,
  around: AroundLogger,
  hours: ReturnType<typeof tracesOf> = tracesOf(read.hours),
): ReviewCase {
  const found = foundIn(site, fromEpochMs, asOfEpochMs)
  const rejected = groupBy(
    found.filter(({ verdict }) => verdict === 'rejected'),
    ({ series }) => series,
  )
  const traceOf = (series: ReviewedSeries, factor = 1): Trace => {
    const all = hours.get(series.series) ?? { atEpochMs: [], values: [] }
    const found = withoutStretches(all, rejected.get(series.id) ?? [])
    const described = describe(series)
    return {
      ...described,
      standardUncertainty: series.standardUncertainty === null ? null : series.standardUncertainty * factor,
      repeatability: described.repeatability === null ? null : described.repeatability * factor,
      atEpochMs: found.atEpochMs,
      values: factor === 1 ? found.values : timesFactor(found.values, factor),
    }
  }
  const neighbour = ({
    series,
    factor,
    distanceMetres,
    aboveMetres,
    sameStratum,
  }: PlacedSeries): Neighbour => ({
    ...traceOf(series, factor),
    // What was converted to the unit of the series reviewed is told in it.
    ...(factor === 1 ? {} : { unit: subject.unit }),
    distanceMetres,
    aboveMetres,
    sameStratum,
  })
  const placed = [...companions.same, ...companions.other, ...companions.byHand].map(({ series }) => series)
  const drivers = companions.drivers.map(({ series }) => series)
  const against = new Set([...placed, ...companions.checksums, ...drivers].map(({ id }) => id))
  const has = ({ values }: Trace) => values.length > 0
  const atEpochMs = Array.from(read.readings.number('at_ms'))
  return {
    fromEpochMs,
    untilEpochMs: asOfEpochMs,
    timeZone: site.facts.timeZone,
    subject: { ...describe(subject), atEpochMs, values: Array.from(read.readings.number('value')) },
    lateAfterMinutes: subject.lateAfterMinutes,
    outOfUseSinceEpochMs: outOfUseSince(site, subject, asOfEpochMs),
    resolution: 10 ** -subject.decimals,
    range: subject.range ?? null,
    same: companions.same.map(neighbour).filter(has),
    other: companions.other.map(neighbour).filter(has),
    byHand: companions.byHand.map(neighbour).filter(has),
    ofLogger: companions.ofLogger.map((series) => traceOf(series)).filter(has),
    checksums: companions.checksums.map((series) => traceOf(series)).filter(has),
    airStandsInValues: subject.venting?.airStandsInValues ?? null,
    drivers: companions.drivers.map(({ kind, series }) => ({ ...traceOf(series), kind })).filter(has),
    logger:
      companions.logger === null
        ? null
        : loggerRecord(companions.logger, subject, { fromEpochMs, asOfEpochMs }, read.readings, around),
    networkKnown: around.network !== null,
    foundBeside: found.filter(({ series }) => against.has(series)),
    notes: notesOf(site, subject, fromEpochMs, asOfEpochMs),
    // Predictions that were entered later were not known.
    expected: seriesEnvelope(
      { ...site, predictions: site.predictions.filter(({ validFrom }) => validFrom <= asOfEpochMs) },
      subject,
    ),
    ...(single
      ? {
          reading: {
            ...single,
            flags: read.readings.number('flags')[atEpochMs.indexOf(single.atEpochMs)] ?? 0,
            byHand: companions.byHandItself,
          },
        }
      : {}),
  }
}

/** Of one that several are held against the very same values, so that what is made of them is made once. */
const timesFactor = keptWith((values: readonly number[], factor: number): readonly number[] =>
  values.map((value) => value * factor),
)

/** A series as rules of a review want it, but for its readings. */
export const describe = (series: ReviewedSeries) => ({
  series: series.id,
  point: series.point,
  measure: series.measure,
  unit: series.unit,
  intervalMinutes: series.intervalMinutes,
  standardUncertainty: series.standardUncertainty,
  // What all its values share cancels in a change.
  repeatability: series.uncertaintyPeriods?.at(-1)?.independent ?? series.standardUncertainty,
})

/** Readings by the number of their series, of a query with the columns series, at_ms and value. */
export function tracesOf(
  columns: ReadColumns,
): ReadonlyMap<number, { atEpochMs: number[]; values: number[] }> {
  const traces = new Map<number, { atEpochMs: number[]; values: number[] }>()
  const [series, at, value] = ['series', 'at_ms', 'value'].map((name) => columns.number(name))
  for (let row = 0; row < columns.rows; row++) {
    const key = series?.[row] as number
    const trace = traces.get(key) ?? { atEpochMs: [], values: [] }
    if (!traces.has(key)) traces.set(key, trace)
    trace.atEpochMs.push(at?.[row] as number)
    trace.values.push(value?.[row] as number)
  }
  return traces
}

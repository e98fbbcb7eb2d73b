import type { NetworkDocument } from '#contract/network-document.ts'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import { metresBetween } from '#domain/geometry/straight-distance.ts'
import { clockDrift } from '#domain/network/clock-drift.ts'
import { completenessSince } from '#domain/network/logger-day.ts'
import type { DatedNote, LoggerRecord, Neighbour, ReviewCase, Trace } from '#domain/review/review-case.ts'
import type { Columns } from '../../engine/columns.ts'
import type { Companions, PlacedSeries } from './companions.ts'

/** What was read, as the two questions of `review-readings.ts` answer. */
export interface ReadForReview {
  readonly hours: Columns
  /** Of the series reviewed. */
  readonly readings: Columns
}

/** What is known of loggers and links. */
export interface AroundLogger {
  /** As it was known at the instant; null: not known. */
  readonly network: NetworkDocument | null
  /** Of its logger; null: not measured. */
  readonly battery: LoggerRecord['battery']
  /** Loggers that stand beside it. */
  readonly beside: readonly string[]
}

interface Asked {
  readonly subject: Series
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
  readonly companions: Companions
}

/** Everything that is looked at of one series, put together from what was read and what is on record. */
export function reviewCaseOf(
  site: SiteDocument,
  { subject, fromEpochMs, asOfEpochMs, companions }: Asked,
  read: ReadForReview,
  around: AroundLogger,
): ReviewCase {
  const hours = tracesOf(read.hours)
  const traceOf = (series: Series, factor = 1): Trace => {
    const found = hours.get(series.series) ?? { atEpochMs: [], values: [] }
    const described = describe(series)
    return {
      ...described,
      standardUncertainty: series.standardUncertainty === null ? null : series.standardUncertainty * factor,
      repeatability: described.repeatability === null ? null : described.repeatability * factor,
      atEpochMs: found.atEpochMs,
      values: factor === 1 ? found.values : found.values.map((value) => value * factor),
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
    distanceMetres,
    aboveMetres,
    sameStratum,
  })
  const has = ({ values }: Trace) => values.length > 0
  const atEpochMs = Array.from(read.readings.number('at_ms'))
  return {
    fromEpochMs,
    untilEpochMs: asOfEpochMs,
    subject: { ...describe(subject), atEpochMs, values: Array.from(read.readings.number('value')) },
    lateAfterMinutes: subject.lateAfterMinutes,
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
    notes: notesOf(site, subject, fromEpochMs, asOfEpochMs),
  }
}

const describe = (series: Series) => ({
  series: series.id,
  point: series.point,
  measure: series.measure,
  unit: series.unit,
  intervalMinutes: series.intervalMinutes,
  standardUncertainty: series.standardUncertainty,
  // What all its values share cancels in a change.
  repeatability: series.uncertaintyPeriods?.at(-1)?.independent ?? series.standardUncertainty,
})

function tracesOf(columns: Columns): ReadonlyMap<number, { atEpochMs: number[]; values: number[] }> {
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

/** How its logger and link did, as the network document tells it; null where the logger is not in it. */
function loggerRecord(
  logger: string,
  subject: Series,
  { fromEpochMs, asOfEpochMs }: { readonly fromEpochMs: number; readonly asOfEpochMs: number },
  readings: Columns,
  { network, battery, beside }: AroundLogger,
): LoggerRecord | null {
  const facts = network?.loggers.find((one) => one.logger === logger)
  if (!facts) return null
  const lateSeconds = subject.lateAfterMinutes * 60
  const { due, held, inTime } = completenessSince(facts.days, fromEpochMs)
  const drift = clockDrift(facts.days, (facts.lateAfterMinutes ?? 0) * 60)
  const silent = beside.filter((one) => {
    const other = network?.loggers.find((another) => another.logger === one)
    const share = completenessSince(other?.days ?? [], fromEpochMs).inTimeShare
    return share !== null && share < 0.9
  })
  return {
    logger,
    due,
    inTime,
    later: held - inTime,
    longestSilence: longestSilence(readings, lateSeconds, subject.intervalMinutes * 60_000, {
      fromEpochMs,
      asOfEpochMs,
    }),
    clockSecondsPerDay: drift.ok
      ? {
          value: drift.value.gainSecondsPerDay,
          low: drift.value.interval[0],
          high: drift.value.interval[1],
        }
      : null,
    battery,
    silentBeside: { silent: silent.length, of: beside.length },
  }
}

/** Longest time in which nothing of the series had come in time, from its first reading in the stretch on. */
function longestSilence(
  readings: Columns,
  lateSeconds: number,
  intervalMs: number,
  { fromEpochMs, asOfEpochMs }: { readonly fromEpochMs: number; readonly asOfEpochMs: number },
): LoggerRecord['longestSilence'] {
  const after = readings.number('received_after_s')
  const at = Array.from(readings.number('at_ms'))
  const known = at.filter((_, row) => (after[row] as number) <= lateSeconds)
  const instants = [Math.max(fromEpochMs, at[0] ?? fromEpochMs), ...known, asOfEpochMs]
  let longest: LoggerRecord['longestSilence'] = null
  for (let i = 1; i < instants.length; i++) {
    const [from, until] = [instants[i - 1] as number, instants[i] as number]
    if (until - from < 2 * intervalMs) continue
    if (!longest || until - from > longest.untilEpochMs - longest.fromEpochMs)
      longest = { fromEpochMs: from, untilEpochMs: until }
  }
  return longest
}

const noteKinds = {
  works: 'works',
  visit: 'visit',
  damage: 'damage',
  weather: 'diary',
  note: 'diary',
} as const

/** Stages, diary and calibrations: what people did or noted within the stretch and a fortnight before. */
function notesOf(
  site: SiteDocument,
  subject: Series,
  fromEpochMs: number,
  asOfEpochMs: number,
): readonly DatedNote[] {
  const since = fromEpochMs - 14 * 86_400_000
  const point = site.points.find(({ id }) => id === subject.point)
  const within = (at: number) => since <= at && at <= asOfEpochMs
  const away = (east: number | null | undefined, north: number | null | undefined) =>
    point && east != null && north != null
      ? metresBetween(point, { eastingMetres: east, northingMetres: north })
      : null
  return [
    ...site.stages.map(
      ({ startsAt, name }): DatedNote => ({
        kind: 'works',
        atEpochMs: startsAt,
        text: `${name} began`,
        distanceMetres: null,
      }),
    ),
    ...site.diary.map(
      (entry): DatedNote => ({
        kind: noteKinds[entry.kind],
        atEpochMs: entry.at,
        text: entry.text,
        distanceMetres: away(entry.eastingMetres, entry.northingMetres),
      }),
    ),
    ...(subject.uncertaintyPeriods ?? []).slice(1).map(
      (period): DatedNote => ({
        kind: 'calibration',
        atEpochMs: period.fromEpochMs,
        text: 'another calibration or zero of it came into force',
        distanceMetres: 0,
      }),
    ),
  ].filter(({ atEpochMs }) => within(atEpochMs))
}

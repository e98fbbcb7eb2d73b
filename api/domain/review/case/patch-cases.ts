import { batterySeriesOf } from '../../power/battery-series.ts'
import type { ReviewCase } from '../review-case.ts'
import { reviewCaseOf, tracesOf } from './case-of.ts'
import { type Around, type Companions, companionsOf } from './companions.ts'
import { loggersBeside } from './loggers-beside.ts'
import type { KnownNetwork, ReadColumns, ReviewedSeries, ReviewedSite } from './reviewed-site.ts'

/** What is to be asked before the series of a patch can be weighed. */
export interface PatchQuestion {
  readonly subjects: readonly ReviewedSeries[]
  readonly companions: ReadonlyMap<string, Companions>
  /** Numbers of all series whose hours are wanted, in order. */
  readonly hours: readonly number[]
  readonly network: KnownNetwork | null
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
}

/** Each series of a patch with what it is held against, and every series that has to be asked for, once. */
export function patchQuestion(
  site: ReviewedSite,
  subjects: readonly ReviewedSeries[],
  network: KnownNetwork | null,
  around: Pick<Around, 'barriers' | 'waterUnitWeightKnPerM3'>,
  { fromEpochMs, asOfEpochMs }: { readonly fromEpochMs: number; readonly asOfEpochMs: number },
): PatchQuestion {
  const companions = new Map(
    subjects.map((subject) => [subject.id, companionsOf(site, subject, { ...around, network })]),
  )
  const cells = batterySeriesOf(site, asOfEpochMs)
  const loggers = new Set([...companions.values()].flatMap(({ logger }) => logger ?? []))
  const numbers = new Set([
    ...subjects.map(({ series }) => series),
    ...[...companions.values()].flatMap((one) => [
      ...[...one.same, ...one.other, ...one.byHand, ...one.drivers].map(({ series }) => series.series),
      ...[...one.ofLogger, ...one.checksums].map(({ series }) => series),
    ]),
    ...cells.filter(({ logger }) => loggers.has(logger)).map(({ voltage }) => voltage),
  ])
  return {
    subjects,
    companions,
    network,
    fromEpochMs,
    asOfEpochMs,
    hours: [...numbers].sort((one, other) => one - other),
  }
}

/** One case after another, each put together when it is asked for: a person may stop in between. */
export function* casesOfPatch(
  site: ReviewedSite,
  { subjects, companions, network, fromEpochMs, asOfEpochMs }: PatchQuestion,
  read: { readonly hours: ReadColumns; readonly readings: ReadColumns },
): Generator<ReviewCase> {
  const hours = tracesOf(read.hours)
  const cells = batterySeriesOf(site, asOfEpochMs)
  for (const subject of subjects) {
    const beside = companions.get(subject.id)
    if (!beside) continue
    const battery = cells.find(({ logger }) => logger === beside.logger)
    const volts = battery && hours.get(battery.voltage)
    const [last, lastAt] = [volts?.values.at(-1), volts?.atEpochMs.at(-1)]
    yield reviewCaseOf(
      site,
      { subject, companions: beside, fromEpochMs, asOfEpochMs },
      { hours: read.hours, readings: rowsOf(read.readings, subject.series) },
      {
        network,
        battery:
          battery && battery.limitVolts !== null && last !== undefined && lastAt !== undefined
            ? { volts: last, atEpochMs: lastAt, leastVolts: battery.limitVolts, series: battery.voltageId }
            : null,
        beside: beside.logger === null ? [] : loggersBeside(site, beside.logger),
      },
      hours,
    )
  }
}

/** Rows of one series of an answer in order of series. */
function rowsOf(columns: ReadColumns, series: number): ReadColumns {
  const numbers = columns.number('series')
  let from = numbers.indexOf(series)
  if (from < 0) from = numbers.length
  const until = Math.max(from, numbers.lastIndexOf(series) + 1)
  return { rows: until - from, number: (name) => columns.number(name).subarray(from, until) }
}

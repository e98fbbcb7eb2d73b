import type { NetworkDocument } from '#contract/network-document.ts'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { type Columns, columnsOf } from '../../engine/columns.ts'
import { batterySeriesOf } from '../battery-outlooks.ts'
import { reviewCaseOf, tracesOf } from './case-of.ts'
import { type Around, type Companions, companionsOf } from './companions.ts'
import { loggersBeside } from './loggers-beside.ts'

/** What is to be asked before the series of a patch can be weighed. */
export interface PatchQuestion {
  readonly subjects: readonly Series[]
  readonly companions: ReadonlyMap<string, Companions>
  /** Numbers of all series whose hours are wanted, in order. */
  readonly hours: readonly number[]
  readonly network: NetworkDocument | null
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
}

/** Each series of a patch with what it is held against, and every series that has to be asked for, once. */
export function patchQuestion(
  site: SiteDocument,
  subjects: readonly Series[],
  network: NetworkDocument | null,
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
  site: SiteDocument,
  { subjects, companions, network, fromEpochMs, asOfEpochMs }: PatchQuestion,
  read: { readonly hours: Columns; readonly readings: Columns },
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
            ? { volts: last, atEpochMs: lastAt, leastVolts: battery.limitVolts }
            : null,
        beside: beside.logger === null ? [] : loggersBeside(site, beside.logger),
      },
      hours,
    )
  }
}

/** Rows of one series of an answer in order of series. */
function rowsOf(columns: Columns, series: number): Columns {
  const numbers = columns.number('series')
  let from = numbers.indexOf(series)
  if (from < 0) from = numbers.length
  const until = Math.max(from, numbers.lastIndexOf(series) + 1)
  const part = (name: string) => columns.number(name).subarray(from, until)
  return columnsOf(until - from, {
    at_ms: part('at_ms'),
    value: part('value'),
    received_after_s: part('received_after_s'),
  })
}

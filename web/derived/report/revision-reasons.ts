import type { FrozenRecords } from '#contract/frozen-records.ts'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import { isKnownBy } from '#domain/receipt/known-by.ts'
import { clockAt, clocksOf } from '#domain/reduction/logger-clock.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { RevisedValue } from '#domain/report/revised-values.ts'

/** Why a value is told otherwise than it was. */
export type RevisionReason =
  | 'received'
  | 'companion'
  | 'calibration'
  | 'barometer'
  | 'clock'
  | 'wiring'
  | 'made'
  | 'verdict'
  | 'untold'

export const reasonWords: Readonly<Record<RevisionReason, string>> = {
  received: 'received after the data of the last issue were frozen',
  companion: 'the reading that corrects it (air pressure or temperature) arrived later',
  calibration: 'another calibration',
  barometer: 'corrected by another barometer',
  clock: 'the clock of its logger was put right',
  wiring: 'another wiring',
  made: 'made from other series, of which readings were revised',
  verdict: 'a verdict on it was entered since',
  untold: 'no record of the frozen data says why',
}

/** What is known of a data set when reasons are looked for. */
export interface ReasonSide {
  readonly site: Pick<SiteDocument, 'series' | 'verdicts'>
  readonly records: FrozenRecords | null
}

const companionMissing = quality.barometerMissing + quality.temperatureMissing

/**
 * The reason that the frozen data give for a revised value, the nearest first: it or its companion arrived later, a
 * record of its sensor differs, it is made from others, a verdict was entered on it. `receivedAtEpochMs`: of the
 * reading as it is told now, null where it is not.
 */
export function revisionReasons(before: ReasonSide, now: ReasonSide, beforeCutOffEpochMs: number) {
  const seriesOf = new Map(now.site.series.map((one) => [one.series, one]))
  const earlier = new Map(before.site.series.map((one) => [one.id, one]))
  const verdictsBefore = new Set(before.site.verdicts.map(({ id }) => id))
  const newVerdicts = now.site.verdicts.filter(({ id }) => !verdictsBefore.has(id))
  const calibrated = firstDifference(before.records?.calibrations, now.records?.calibrations)
  const corrected = firstDifference(
    before.records && (before.records.sensorBarometers ?? []),
    now.records && (now.records.sensorBarometers ?? []),
  )
  const clocked = clockDifferences(before.records, now.records)
  const wired = firstDifference(before.records?.wiring, now.records?.wiring)
  return (
    value: RevisedValue,
    told: {
      readonly receivedAtEpochMs: number | null
      readonly qualityBefore: number
      readonly qualityNow: number
    },
  ): RevisionReason => {
    const series = seriesOf.get(value.series)
    if (!series) return 'untold'
    const at = value.atEpochMs
    if (
      value.before === null &&
      told.receivedAtEpochMs !== null &&
      !isKnownBy(told.receivedAtEpochMs, beforeCutOffEpochMs)
    )
      return 'received'
    if ((told.qualityBefore & companionMissing & ~told.qualityNow) !== 0) return 'companion'
    const since = Math.min(
      calibrated.get(series.id) ?? Number.POSITIVE_INFINITY,
      now.records && before.records ? Number.POSITIVE_INFINITY : newPeriod(earlier.get(series.id), series),
    )
    if (since <= at) return 'calibration'
    if ((corrected.get(series.id) ?? Number.POSITIVE_INFINITY) <= at) return 'barometer'
    if (clocked(series.id, at)) return 'clock'
    if ((wired.get(series.id) ?? Number.POSITIVE_INFINITY) <= at) return 'wiring'
    if (series.made) return 'made'
    const judged = newVerdicts.some(
      (one) => one.series === series.id && one.fromAt <= at && at < (one.untilAt ?? Number.POSITIVE_INFINITY),
    )
    return judged ? 'verdict' : 'untold'
  }
}

/** From when on records of a sensor differ between two data sets; sensors whose records are alike are left out. */
function firstDifference(
  before: readonly { readonly sensor: string }[] | null | undefined,
  now: readonly { readonly sensor: string }[] | null | undefined,
): ReadonlyMap<string, number> {
  const found = new Map<string, number>()
  if (!before || !now) return found
  const text = (row: object) => JSON.stringify(row)
  const [known, standing] = [new Set(before.map(text)), new Set(now.map(text))]
  const differing = [
    ...now.filter((row) => !known.has(text(row))),
    ...before.filter((row) => !standing.has(text(row))),
  ]
  for (const row of differing) {
    const from = 'validFrom' in row ? Number(row.validFrom) : 'fromAt' in row ? Number(row.fromAt) : 0
    found.set(row.sensor, Math.min(found.get(row.sensor) ?? Number.POSITIVE_INFINITY, from))
  }
  return found
}

/** Whether a series was read at an instant by a logger whose clock is on record otherwise by then. */
function clockDifferences(
  before: FrozenRecords | null,
  now: FrozenRecords | null,
): (series: string, atEpochMs: number) => boolean {
  if (!before || !now) return () => false
  const text = (row: object) => JSON.stringify(row)
  const [was, is] = [before.loggerClocks ?? [], now.loggerClocks ?? []]
  const [clocksBefore, clocksNow] = [clocksOf(was), clocksOf(is)]
  const [known, standing] = [new Set(was.map(text)), new Set(is.map(text))]
  const since = new Map<string, number>()
  for (const row of [
    ...is.filter((one) => !known.has(text(one))),
    ...was.filter((one) => !standing.has(text(one))),
  ]) {
    // What is or was taken off brings readings to stand before the stamp at which that begins.
    const added = [clocksBefore, clocksNow].map(
      (clocks) => clockAt(clocks.get(row.logger) ?? [], row.validFrom).addedSeconds,
    )
    const first = row.validFrom + Math.min(0, ...added) * 1000
    since.set(row.logger, Math.min(since.get(row.logger) ?? Number.POSITIVE_INFINITY, first))
  }
  return (series, at) =>
    now.wiring.some(
      ({ sensor, logger, fromAt, untilAt }) =>
        sensor === series &&
        fromAt <= at &&
        at < (untilAt ?? Number.POSITIVE_INFINITY) &&
        (since.get(logger) ?? Number.POSITIVE_INFINITY) <= at,
    )
}

/** Without the records of calibrations: from when on the site tells of another one. */
function newPeriod(before: Series | undefined, now: Series): number {
  const known = new Set((before?.uncertaintyPeriods ?? []).map((one) => one.commonSinceEpochMs))
  const fresh = (now.uncertaintyPeriods ?? []).filter((one) => !known.has(one.commonSinceEpochMs))
  return Math.min(Number.POSITIVE_INFINITY, ...fresh.map((one) => one.commonSinceEpochMs))
}

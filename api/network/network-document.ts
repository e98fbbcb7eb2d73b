import type { LoggerFacts, NetworkDocument } from '#contract/network-document.ts'
import type { Receipt } from '#contract/receipt.ts'
import { groupBy } from '#domain/group-by.ts'
import { calibrationsDue } from '#domain/network/calibrations-due.ts'
import { consequences } from '#domain/network/consequence.ts'
import { dueReadings } from '#domain/network/due-readings.ts'
import type { LoggerDay } from '#domain/network/logger-day.ts'
import { type Route, singlePoints } from '#domain/network/single-points.ts'
import { type Wire, wiresAt, wiresOf } from '#domain/network/wires-in-force.ts'
import { wiringConflicts } from '#domain/network/wiring-conflicts.ts'
import { isKnownBy } from '#domain/receipt/known-by.ts'
import { type ClockSetting, clockAt, clocksOf, instantOfStamp } from '#domain/reduction/logger-clock.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Logger } from '#domain/site/tables.ts'
import type { Store } from '../store/store.ts'
import { type MeasuredLoggers, measureLoggers } from './measure-loggers.ts'

const dayMs = 86_400_000
/** Days looked at for completeness, clocks and delays. */
const daysLookedAt = 60
/** Days over which channels count as heard, and ways as still open; covers two visits of a weekly round. */
const daysLately = 14
/** Calibrations due within these days are told of. */
const daysAhead = 60

/** The loggers of a site as they were known at an instant. */
export async function networkDocument(
  store: Store,
  site: string,
  model: SiteModel,
  asOfEpochMs: number,
): Promise<NetworkDocument> {
  const revision = await store.revision(site)
  const wires = wiresOf(model)
  const byLogger = groupBy(wires, (wire) => wire.logger)
  const now = groupBy(wiresAt(wires, asOfEpochMs), (wire) => wire.logger)
  const fromEpochMs = Math.floor(asOfEpochMs / dayMs) * dayMs - daysLookedAt * dayMs
  const lately = asOfEpochMs - daysLately * dayMs
  const lateAfterMinutes = new Map(
    model.loggers.map(({ id }) => [id, lateAfter(now.get(id) ?? byLogger.get(id) ?? []) ?? 0]),
  )
  const measured = await measureLoggers(store, { site, asOfEpochMs, fromEpochMs, lately, lateAfterMinutes })
  const routes = routesOf(measured.batches, await store.listBatches(site), asOfEpochMs, lately)
  const consequenceOf = consequences(wires, asOfEpochMs)
  const daysOf = groupBy(measured.days, (day) => day.logger)
  const lastOf = new Map(measured.last.map((one) => [one.logger, one]))

  const clocks = clocksOf(model.loggerClocks)
  const readByPeople = new Set(model.loggers.filter(({ kind }) => kind !== 'logger').map(({ id }) => id))

  const facts = (logger: Logger): LoggerFacts => {
    const wired = now.get(logger.id) ?? []
    const last = lastOf.get(logger.id)
    const cutoffEpochMs = asOfEpochMs - (lateAfterMinutes.get(logger.id) ?? 0) * 60_000
    return {
      logger: logger.id,
      kind: logger.kind,
      wiredChannels: wired.map((wire) => ({
        channel: wire.channel,
        series: wire.sensor.id,
        critical: wire.critical,
      })),
      intervalMinutes: least(wired.map((wire) => wire.sensor.intervalMinutes)),
      lateAfterMinutes: lateAfter(wired),
      ...clockOnRecord(clocks.get(logger.id) ?? [], last?.lastStampEpochMs ?? asOfEpochMs),
      lastStampEpochMs: last ? instantOfStamp(clocks.get(logger.id) ?? [], last.lastStampEpochMs) : null,
      lastReceivedEpochMs: last?.lastReceivedEpochMs ?? null,
      days:
        logger.kind === 'logger'
          ? daysWithDue(
              byLogger.get(logger.id) ?? [],
              daysOf.get(logger.id) ?? [],
              fromEpochMs,
              asOfEpochMs,
              cutoffEpochMs,
            )
          : [],
      routes: routes
        .filter((route) => route.logger === logger.id)
        .map(({ sender, readings }) => ({ sender, readings })),
      consequence: consequenceOf.get(logger.id) ?? { channels: 0, criticalChannels: 0, dependants: 0 },
    }
  }
  return {
    site,
    revision,
    asOfEpochMs,
    fromEpochMs,
    loggers: model.loggers.map(facts),
    wiringConflicts: [...wiringConflicts(wires, model.loggers, measured.channels, asOfEpochMs)],
    singlePoints: [...singlePoints(wires, routes, asOfEpochMs, readByPeople)],
    calibrations: calibrationsDueOf(model, wires, asOfEpochMs),
  }
}

/** Nothing where stamps stand as sent. */
function clockOnRecord(
  settings: readonly ClockSetting[],
  stampEpochMs: number,
): Pick<LoggerFacts, 'clockOnRecord'> {
  const held = clockAt(settings, stampEpochMs)
  return held.addedSeconds === 0 && held.addedSecondsPerDay === 0 ? {} : { clockOnRecord: held }
}

function calibrationsDueOf(model: SiteModel, wires: readonly Wire[], asOfEpochMs: number) {
  const found = calibrationsDue(model.calibrations, wires, asOfEpochMs, daysAhead)
  return { ...found, due: [...found.due] }
}

function daysWithDue(
  wires: readonly Wire[],
  measured: MeasuredLoggers['days'],
  fromEpochMs: number,
  asOfEpochMs: number,
  cutoffEpochMs: number,
): LoggerDay[] {
  const measuredOf = new Map(measured.map((day) => [day.dayEpochMs, day]))
  const days: LoggerDay[] = []
  for (let dayEpochMs = fromEpochMs; dayEpochMs <= asOfEpochMs; dayEpochMs += dayMs) {
    const seen = measuredOf.get(dayEpochMs)
    const due = dueReadings(wires, dayEpochMs, Math.min(dayEpochMs + dayMs, cutoffEpochMs))
    if (due === 0 && !seen) continue
    days.push({
      dayEpochMs,
      due,
      held: seen?.held ?? 0,
      inTime: seen?.inTime ?? 0,
      leastDelaySeconds: seen?.leastDelaySeconds ?? null,
      medianDelaySeconds: seen?.medianDelaySeconds ?? null,
    })
  }
  return days
}

/**
 * Ways by which readings of the days looked at came and that still send, if only what another way brought before: repeats
 * are not kept, so a second way shows by the few readings that the first had lost.
 */
function routesOf(
  batches: MeasuredLoggers['batches'],
  receipts: readonly Receipt[],
  asOfEpochMs: number,
  lately: number,
): readonly Route[] {
  const senderOf = new Map(receipts.map((receipt) => [receipt.batch, receipt.from]))
  const open = new Set(
    receipts
      .filter((one) => one.receivedAtEpochMs >= lately && isKnownBy(one.receivedAtEpochMs, asOfEpochMs))
      .map((one) => one.from),
  )
  const sent = groupBy(batches, ({ logger, batch }) =>
    JSON.stringify([logger, senderOf.get(batch) ?? `file ${batch}`]),
  )
  return [...sent].flatMap(([key, rows]) => {
    const [logger, sender] = JSON.parse(key) as [string, string]
    const readings = rows.reduce((sum, row) => sum + row.readings, 0)
    return open.has(sender) ? [{ logger, sender, readings }] : []
  })
}

const lateAfter = (wires: readonly Wire[]) => least(wires.map((wire) => wire.sensor.lateAfterMinutes))

const least = (values: readonly number[]): number | null => (values.length === 0 ? null : Math.min(...values))

import type { LoggerFacts, NetworkDocument } from '#contract/network-document.ts'
import type { Series, SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { walkingOrder } from '#domain/field/walking-order.ts'
import { groupBy } from '#domain/group-by.ts'
import { isLate } from '#domain/levels/lateness.ts'
import { type ClockDrift, clockDrift } from '#domain/network/clock-drift.ts'
import {
  type LoggerCondition,
  loggerCondition,
  loggerStandings,
  weightOf,
} from '#domain/network/logger-condition.ts'
import { type Completeness, completenessSince } from '#domain/network/logger-day.ts'
import type { Outcome } from '#domain/outcome.ts'
import type { BatterySeries } from '#domain/power/battery-series.ts'
import type { BatteryOutlook } from '#domain/power/days-left.ts'
import { isSilent, readsWithoutValue } from '../ui/state-scale.ts'

/** A logger with all that is known of it, ready to be told. */
export interface LoggerLine {
  readonly facts: LoggerFacts
  readonly condition: LoggerCondition
  readonly completeness: Completeness
  readonly drift: Outcome<ClockDrift>
  readonly battery: BatteryOutlook | null
  readonly batteryLimitVolts: number | null
  /** The soonest of its calibrations; null where none is due within the days looked ahead. */
  readonly calibrationDueEpochMs: number | null
  readonly calibrationsDue: number
  /** Place in a walk along the loggers, from 1. */
  readonly stop: number
}

const dayMs = 86_400_000

/** Loggers in the order in which they ask for a person: how they stand, what hangs on them, the walk. */
export function loggerLines(
  document: NetworkDocument,
  site: SiteDocument,
  batteries: readonly BatterySeries[],
  outlooks: ReadonlyMap<string, BatteryOutlook> | null,
): readonly LoggerLine[] {
  const at = document.asOfEpochMs
  const places = new Map(site.locations.map((one) => [one.id, one]))
  const placed = site.loggers.flatMap(({ id, location }) => {
    const place = places.get(location ?? '')
    return place ? [{ ...place, id, urgency: 0 }] : []
  })
  // From the westernmost on, so that the same loggers are always walked the same way.
  const [west = null] = placed.toSorted((one, other) => one.eastingMetres - other.eastingMetres)
  const stops = walkingOrder(west, placed).stops.map(({ id }) => id)
  const limits = new Map(batteries.map((one) => [one.logger, one.limitVolts]))
  const due = groupBy(document.calibrations.due, (one) => one.logger)
  return document.loggers
    .filter(({ kind }) => kind === 'logger')
    .map((facts): LoggerLine => {
      const lateMs = (facts.lateAfterMinutes ?? 0) * 60_000
      const completeness = completenessSince(
        facts.days,
        Math.floor((at - lateMs) / dayMs) * dayMs - 6 * dayMs,
      )
      const drift = clockDrift(facts.days, lateMs / 1000)
      const battery = outlooks?.get(facts.logger) ?? null
      const batteryLimitVolts = limits.get(facts.logger) ?? null
      const ofLogger = due.get(facts.logger) ?? []
      return {
        facts,
        completeness,
        drift,
        battery,
        batteryLimitVolts,
        calibrationDueEpochMs: ofLogger[0]?.dueEpochMs ?? null,
        calibrationsDue: ofLogger.length,
        stop: 1 + ((stops.indexOf(facts.logger) + stops.length) % Math.max(1, stops.length)),
        condition: loggerCondition(
          {
            wired: facts.wiredChannels.length > 0,
            lastHeardEpochMs: lastHeardOf(facts),
            lateAfterMinutes: facts.lateAfterMinutes,
            completeness,
            drift,
            clockOnRecord: facts.clockOnRecord,
            battery,
            batteryLimitVolts,
            consequence: facts.consequence,
            calibrationsOverdue: ofLogger.filter(({ dueEpochMs }) => dueEpochMs < at).length,
          },
          at,
        ),
      }
    })
    .toSorted(
      (one, other) =>
        loggerStandings.indexOf(one.condition.standing) - loggerStandings.indexOf(other.condition.standing) ||
        weightOf(other.facts.consequence) - weightOf(one.facts.consequence) ||
        one.stop - other.stop,
    )
}

/** A clock that runs fast must not hide silence: the earlier of stamp and receipt. */
export const lastHeardOf = ({ lastStampEpochMs, lastReceivedEpochMs }: LoggerFacts): number | null =>
  lastStampEpochMs === null || lastReceivedEpochMs === null
    ? null
    : Math.min(lastStampEpochMs, lastReceivedEpochMs)

/** Critical channels of one logger that have no current value, all for the same reason. */
export interface SilentChannels {
  readonly logger: string
  /** `unheard`: nothing came in time. `without-value`: readings come, but give no value. */
  readonly reason: 'unheard' | 'without-value'
  readonly instrument: string
  readonly series: readonly Series[]
  /** Last reading of the one that was heard longest ago; null: never. */
  readonly sinceEpochMs: number | null
}

/** Critical channels that are late or without a value at the clock, those with most channels first. Null while states are not known. */
export function silentCritical(
  document: NetworkDocument,
  seriesById: ReadonlyMap<string, Series>,
  instrumentOf: (point: string) => string,
  states: ReadonlyMap<number, SeriesState> | null,
): readonly SilentChannels[] | null {
  if (states === null) return null
  const silent = document.loggers.flatMap((facts) =>
    facts.wiredChannels.flatMap(({ series: id, critical }) => {
      const series = seriesById.get(id)
      if (!critical || !series) return []
      const state = states.get(series.series)
      const heard = lastHeardOf(facts)
      // States at a past instant know what was fetched since; the receipts do not.
      const unheard = isLate(heard, document.asOfEpochMs, series.lateAfterMinutes)
      if (!unheard && !isSilent(state)) return []
      const reason =
        !unheard && state?.late === false && readsWithoutValue(state) ? 'without-value' : 'unheard'
      const valueAt = state?.atEpochMs ?? null
      const atEpochMs = heard === null || valueAt === null ? null : Math.min(heard, valueAt)
      return [
        { logger: facts.logger, reason, series, instrument: instrumentOf(series.point), atEpochMs } as const,
      ]
    }),
  )
  return [...groupBy(silent, (one) => `${one.logger}\n${one.instrument}\n${one.reason}`).values()]
    .map((channels): SilentChannels => {
      const times = channels.map((one) => one.atEpochMs)
      const [first] = channels as [(typeof channels)[number]]
      return {
        logger: first.logger,
        reason: first.reason,
        instrument: first.instrument,
        series: channels.map((one) => one.series),
        sinceEpochMs: times.includes(null) ? null : Math.min(...(times as number[])),
      }
    })
    .toSorted(
      (one, other) =>
        other.series.length - one.series.length || one.instrument.localeCompare(other.instrument),
    )
}

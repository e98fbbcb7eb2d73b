import type { CheckLimits } from '#domain/flags/flag-reading.ts'
import { checksOfSensors } from '#domain/flags/limits-in-force.ts'
import { neighbourMinutes, type Reach, reachOf } from '#domain/flags/reach.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Link } from './links.ts'

/** How the readings of one series are checked in a stretch of time, by the store's numbers for series. */
export interface CheckedSeries {
  readonly series: number
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
  readonly limits: CheckLimits
  readonly reach: Reach
  readonly neighbourMinutes: number
  /** When it was first wired: from then on readings were due. */
  readonly wiredSinceEpochMs: number
  readonly duplicateSeries: number | null
  readonly temperatureSeries: number | null
  /** Oldest reading of either that still counts as beside this one. */
  readonly companionMaximumAgeMinutes: number
}

const beginOfTime = Date.UTC(1900, 0, 1)
const endOfTime = Date.UTC(9999, 0, 1)

/** The checks of every wired sensor. A companion counts as beside it while it would as a neighbour of the slower of the two. */
export function checkedSeries(
  model: Pick<SiteModel, 'sensors' | 'checkLimits' | 'wiring'>,
  numberOf: ReadonlyMap<string, number>,
): readonly CheckedSeries[] {
  const sensors = new Map(model.sensors.map((sensor) => [sensor.id, sensor]))
  const wiredSince = new Map<string, number>()
  for (const { sensor, fromAt } of model.wiring)
    wiredSince.set(sensor, Math.min(fromAt, wiredSince.get(sensor) ?? Infinity))
  return checksOfSensors(model.sensors, model.checkLimits).flatMap((checks): CheckedSeries[] => {
    const sensor = sensors.get(checks.series)
    const series = numberOf.get(checks.series)
    const wiredSinceEpochMs = wiredSince.get(checks.series)
    if (!sensor || series === undefined || wiredSinceEpochMs === undefined) return []
    const { limits, against, temperature } = checks
    const slowest = Math.max(
      sensor.intervalMinutes,
      ...[against, temperature].map((id) => sensors.get(id ?? '')?.intervalMinutes ?? 0),
    )
    return [
      {
        series,
        fromEpochMs: checks.fromEpochMs ?? beginOfTime,
        untilEpochMs: checks.untilEpochMs ?? endOfTime,
        limits,
        reach: reachOf(limits, sensor.intervalMinutes),
        neighbourMinutes: neighbourMinutes(sensor.intervalMinutes),
        wiredSinceEpochMs,
        duplicateSeries: numberOf.get(against ?? '') ?? null,
        temperatureSeries: numberOf.get(temperature ?? '') ?? null,
        companionMaximumAgeMinutes: neighbourMinutes(slowest),
      },
    ]
  })
}

const none: Reach = { beforeMinutes: 0, afterMinutes: 0 }

/**
 * How far before and after a window the readings of each series must be reduced too, so that checks answer at its ends
 * as in its middle; series that are read by themselves are left out. What corrects a reading after the window is needed
 * there as well.
 */
export function reachOfChecks(
  checked: readonly CheckedSeries[],
  links: readonly Link[],
): ReadonlyMap<number, Reach> {
  const reaches = new Map<number, Reach>()
  const widen = (series: number | null, beforeMinutes: number, afterMinutes: number) => {
    if (series === null || beforeMinutes + afterMinutes === 0) return
    const known = reaches.get(series) ?? none
    reaches.set(series, {
      beforeMinutes: Math.max(known.beforeMinutes, beforeMinutes),
      afterMinutes: Math.max(known.afterMinutes, afterMinutes),
    })
  }
  for (const { series, reach, duplicateSeries, temperatureSeries, companionMaximumAgeMinutes } of checked) {
    widen(series, reach.beforeMinutes, reach.afterMinutes)
    widen(duplicateSeries, companionMaximumAgeMinutes, 0)
    widen(temperatureSeries, companionMaximumAgeMinutes, 0)
  }
  for (const { series, temperatureSeries, barometerSeries } of links) {
    const { afterMinutes } = reaches.get(series) ?? none
    widen(temperatureSeries, 0, afterMinutes)
    widen(barometerSeries, 0, afterMinutes)
  }
  return reaches
}

/**
 * Reaches in which a survey that stands for later instants, and what it is checked against, are looked at as far back as
 * one may stand: its marks are passed on as long.
 */
export function reachOfHeld(
  reaches: ReadonlyMap<number, Reach>,
  checked: readonly CheckedSeries[],
  held: ReadonlySet<number>,
  heldMinutes: number,
): ReadonlyMap<number, Reach> {
  const widened = new Map(reaches)
  const looked = checked
    .filter(({ series }) => held.has(series))
    .flatMap(({ series, duplicateSeries, temperatureSeries }) => [series, duplicateSeries, temperatureSeries])
  for (const series of new Set(looked)) {
    if (series === null) continue
    const { beforeMinutes, afterMinutes } = reaches.get(series) ?? none
    widened.set(series, { beforeMinutes: beforeMinutes + heldMinutes, afterMinutes })
  }
  return widened
}

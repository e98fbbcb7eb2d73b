import { createHash } from 'node:crypto'
import type { Series } from '#contract/site-document.ts'
import type { Reach } from '#domain/flags/reach.ts'
import { barometersOf } from '#domain/reduction/barometer-in-force.ts'
import { calibrationPeriods } from '#domain/reduction/calibration-in-force.ts'
import type { Calibration } from '#domain/reduction/chain.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { clocksOf } from '#domain/reduction/logger-clock.ts'
import { seriesUncertainty } from '#domain/reduction/published-uncertainty.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import type { DerivedBundle } from '#domain/reduction/rules/derived-bundle.ts'
import { ventingOf, ventingRemark } from '#domain/reduction/venting-remark.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { siteWater } from '#domain/site/site-water.ts'
import type { ChannelClock, Store } from '../store/store.ts'
import { channelClocks } from './channel-clocks.ts'
import { type CheckedSeries, checkedSeries, reachOfChecks, reachOfHeld } from './checked-series.ts'
import { hashedLinks } from './hashed-links.ts'
import { type Link, linkChannels } from './links.ts'
import type { Month } from './months.ts'
import { lookBackMinutes } from './reduce-window.ts'
import { seriesCatalogue } from './series-catalogue.ts'

/** How the readings of a site become values: everything but the readings themselves. */
export interface Recipe {
  readonly series: readonly Series[]
  readonly numberOf: ReadonlyMap<string, number>
  readonly links: readonly Link[]
  /** Clocks by which readings are put right; `exposeReadings` takes them. */
  readonly clocks: readonly ChannelClock[]
  readonly calibrations: ReadonlyMap<string, readonly Calibration[]>
  readonly bundles: readonly DerivedBundle[]
  /** Numbers of the series whose last survey stands for later instants. */
  readonly heldSeries: ReadonlySet<number>
  /** The longest that any of them may stand. */
  readonly heldMinutes: number
  readonly checked: readonly CheckedSeries[]
  /** How far around a window the readings of a series are needed for its checks (`reachOfChecks`). */
  readonly reaches: ReadonlyMap<number, Reach>
  /** How far before an instant its value and marks may reach back: companions, surveys at their greatest age, checks. */
  readonly lookBackMinutes: number
  /** How far after an instant its marks may depend on readings: a spike is told by the reading that follows. */
  readonly lookAheadMinutes: number
  /** For a stretch of time: changes whenever a value in it could come out differently. Until is exclusive. */
  readonly hashOf: (fromEpochMs: number, untilEpochMs: number) => string
}

/** Reads the recipe of a site from its records, with the store's numbers for series and channels. */
export async function readRecipe(store: Store, site: string, model: SiteModel): Promise<Recipe> {
  const read = readCalibrations(model)
  if (!read.ok)
    throw new Error(`Calibrations of ${site}: ${read.issues.map((issue) => issue.message).join(' ')}`)
  const calibrations = new Map<string, Calibration[]>()
  for (const calibration of read.value)
    calibrations.set(calibration.sensor, [...(calibrations.get(calibration.sensor) ?? []), calibration])

  const bundles = derivedBundles({
    ...model,
    waterUnitWeightKnPerM3: siteWater(model.facts).unitWeightKnPerM3,
  })
  if (!bundles.ok)
    throw new Error(`Derived series of ${site}: ${bundles.issues.map((issue) => issue.message).join(' ')}`)
  const catalogue = seriesCatalogue(model, bundles.value)
  const ids = catalogue.map((one) => one.id)
  const numbers = await store.seriesNumbers(site, ids)
  const numberOf = new Map(ids.map((id, at) => [id, numbers[at] as number]))

  const wires = model.wiring.map((wire) => ({ logger: wire.logger, name: wire.channel }))
  const channelNumbers = await store.channelNumbers(site, wires)
  const channelOf = new Map(
    wires.map((wire, at) => [`${wire.logger}\n${wire.name}`, channelNumbers[at] as number]),
  )

  const links = linkChannels(
    model.wiring,
    new Map(model.sensors.map((sensor) => [sensor.id, sensor])),
    calibrations,
    (logger, channel) => channelOf.get(`${logger}\n${channel}`) as number,
    (id) => numberOf.get(id) as number,
    barometersOf(model.sensorBarometers),
    clocksOf(model.loggerClocks),
  )
  const uncertaintyOf = seriesUncertainty(model, calibrations, bundles.value)
  const series = catalogue.map((one): Series => {
    const uncertaintyPeriods = uncertaintyOf(one.id)
    return {
      ...one,
      series: numberOf.get(one.id) as number,
      standardUncertainty: uncertaintyPeriods.at(-1)?.standardUncertainty ?? null,
      uncertaintyPeriods,
      ...ventingNow(model, calibrations, one.id),
    }
  })
  const always = JSON.stringify([bundles.value, series.map((one) => [one.id, one.series])])
  const checked = checkedSeries(model, numberOf)
  const held = bundles.value.flatMap(({ slots }) => slots.filter((slot) => slot.maximumAgeMinutes !== null))
  const heldSeries = new Set(held.flatMap((slot) => slot.series.map((id) => numberOf.get(id) as number)))
  const heldMinutes = Math.max(0, ...held.map((slot) => slot.maximumAgeMinutes ?? 0))
  const ofChecks = reachOfChecks(checked, links)
  const around = [...ofChecks.values()]
  const reaches = reachOfHeld(ofChecks, checked, heldSeries, heldMinutes)
  const lookAheadMinutes = Math.max(0, ...around.map(({ afterMinutes }) => afterMinutes))
  const readsUntil = (series: number, untilEpochMs: number) =>
    untilEpochMs + (reaches.get(series)?.afterMinutes ?? 0) * 60_000
  const hashOf = (fromEpochMs: number, untilEpochMs: number) =>
    createHash('sha256')
      .update(always)
      .update(
        JSON.stringify([
          hashedLinks(
            links.flatMap((link) => within(link, fromEpochMs, readsUntil(link.series, untilEpochMs))),
          ),
          checked.flatMap((one) => within(one, fromEpochMs, untilEpochMs)),
        ]),
      )
      .digest('hex')
  return {
    series,
    numberOf,
    links,
    clocks: channelClocks(
      model.loggerClocks,
      wires.map(({ logger }, at) => ({ logger, channel: channelNumbers[at] as number })),
    ),
    calibrations,
    bundles: bundles.value,
    heldSeries,
    heldMinutes,
    checked,
    reaches,
    lookBackMinutes:
      Math.max(lookBackMinutes, heldMinutes) +
      Math.max(0, ...around.map(({ beforeMinutes }) => beforeMinutes)),
    lookAheadMinutes,
    hashOf,
  }
}

/** Hash of all that went into the values of a month, readings from before it that they hang on included. */
export const recipeOfMonth = (recipe: Recipe, month: Month): string =>
  recipe.hashOf(month.fromEpochMs - recipe.lookBackMinutes * 60_000, month.untilEpochMs)

/** By the calibration that is in force last, as the uncertainty of its values now. */
function ventingNow(
  model: SiteModel,
  calibrations: ReadonlyMap<string, readonly Calibration[]>,
  series: string,
): Pick<Series, 'venting'> {
  const sensor = model.sensors.find(({ id }) => id === series)
  const venting = sensor ? ventingOf(sensor) : null
  const calibration = calibrationPeriods(calibrations.get(series) ?? []).at(-1)?.calibration
  return venting && calibration ? { venting: ventingRemark(venting, calibration.steps) } : {}
}

/** What holds in a stretch of time; where it begins or ends outside, nothing in the stretch depends on when. */
function within<T extends { readonly fromEpochMs: number; readonly untilEpochMs: number }>(
  one: T,
  fromEpochMs: number,
  untilEpochMs: number,
): readonly T[] {
  if (one.fromEpochMs >= untilEpochMs || fromEpochMs >= one.untilEpochMs) return []
  return [
    {
      ...one,
      fromEpochMs: Math.max(one.fromEpochMs, fromEpochMs),
      untilEpochMs: Math.min(one.untilEpochMs, untilEpochMs),
    },
  ]
}

import { checkedReadings } from '#domain/flags/checked-readings.ts'
import { findings } from '#domain/flags/flag-reading.ts'
import { checksOfSensors, type SeriesChecks } from '#domain/flags/limits-in-force.ts'
import { markSentences } from '#domain/flags/mark-sentences.ts'
import { groupBy } from '#domain/group-by.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { type CheckedSeries, reachOfChecks } from '../slices/checked-series.ts'
import type { Recipe } from '../slices/recipe.ts'
import { lookBackMinutes, reduceWindow } from '../slices/reduce-window.ts'
import type { Store } from '../store/store.ts'

/** Gaps and runs are told in full up to this age, though their limits are passed sooner. */
const toldMinutes = 7 * 24 * 60

interface ValueRow {
  readonly series: number
  readonly atEpochMs: number
  readonly value: number | null
  readonly receivedAfterSeconds: number
  readonly decimals: number
}

/**
 * What the automatic checks mark about the readings of some sensors at an instant, a sentence each. The values around it
 * are reduced by the queries that publish them, and checked by the functions that the published marks agree with.
 */
export async function marksAt(
  request: {
    readonly store: Store
    readonly site: string
    readonly model: SiteModel
    readonly recipe: Recipe
  },
  sensors: readonly string[],
  atEpochMs: number,
): Promise<readonly string[]> {
  const { model, recipe } = request
  const inForce = (one: { readonly fromEpochMs: number | null; readonly untilEpochMs: number | null }) =>
    (one.fromEpochMs ?? -Infinity) <= atEpochMs && atEpochMs < (one.untilEpochMs ?? Infinity)
  const wanted = model.sensors.filter(({ id }) => sensors.includes(id))
  const checksOf = new Map(
    checksOfSensors(wanted, model.checkLimits)
      .filter(inForce)
      .map((one) => [one.series, one]),
  )
  const numbers = new Map(wanted.map(({ id }) => [recipe.numberOf.get(id), id]))
  const checked = recipe.checked.filter((one) => numbers.has(one.series) && inForce(one))
  if (checked.length === 0) return []
  const rows = groupBy(await valuesAround(request, checked, atEpochMs), ({ series }) => series)
  return checked.flatMap((one) => {
    const sensor = wanted.find(({ id }) => id === numbers.get(one.series))
    const checks = checksOf.get(sensor?.id ?? '')
    return sensor && checks ? sentencesOf(one, checks, rows, sensor.unit, atEpochMs) : []
  })
}

function sentencesOf(
  one: CheckedSeries,
  checks: SeriesChecks,
  rows: ReadonlyMap<number, readonly ValueRow[]>,
  unit: string,
  atEpochMs: number,
): readonly string[] {
  const own = rows.get(one.series) ?? []
  const beside = (series: number | null) => (at: number) =>
    rows
      .get(series ?? -1)
      ?.findLast(
        (row) =>
          row.value !== null &&
          row.atEpochMs <= at &&
          at - row.atEpochMs <= one.companionMaximumAgeMinutes * 60_000,
      )?.value ?? null
  const reading = checkedReadings(own, {
    decimals: own[0]?.decimals ?? 0,
    neighbourMinutes: one.neighbourMinutes,
    dueSinceEpochMs: Math.max(one.wiredSinceEpochMs, atEpochMs - toldMinutes * 60_000),
    duplicateAt: beside(one.duplicateSeries),
    temperatureAt: beside(one.temperatureSeries),
  }).find((candidate) => candidate.atEpochMs === atEpochMs)
  return reading ? markSentences(findings(reading, one.limits), checks, unit) : []
}

async function valuesAround(
  { store, site, recipe }: { readonly store: Store; readonly site: string; readonly recipe: Recipe },
  checked: readonly CheckedSeries[],
  atEpochMs: number,
): Promise<readonly ValueRow[]> {
  const looked = checked.map((one) => ({
    ...one,
    reach: {
      ...one.reach,
      beforeMinutes: one.reach.beforeMinutes === 0 ? 0 : Math.max(toldMinutes, one.reach.beforeMinutes),
    },
  }))
  const looks = new Set(
    looked.flatMap(({ series, duplicateSeries, temperatureSeries }) => [
      series,
      duplicateSeries,
      temperatureSeries,
    ]),
  )
  const own = recipe.links.filter(({ series }) => looks.has(series))
  const companions = new Set(own.flatMap((link) => [link.temperatureSeries, link.barometerSeries]))
  const links = recipe.links.filter(({ series }) => looks.has(series) || companions.has(series))
  const reaches = reachOfChecks(looked, links)
  const widest = (of: 'beforeMinutes' | 'afterMinutes') =>
    Math.max(0, ...[...reaches.values()].map((reach) => reach[of])) * 60_000
  const connection = await store.connect()
  try {
    await store.exposeReadings(connection, 'mark_reading', {
      site,
      fromEpochMs: atEpochMs - widest('beforeMinutes') - lookBackMinutes * 60_000,
      untilEpochMs: atEpochMs + widest('afterMinutes') + 1,
      clocks: recipe.clocks,
    })
    await reduceWindow(connection, 'mark_reading', links, atEpochMs, atEpochMs + 1, new Set(), reaches)
    const reader = await connection.runAndReadAll(`
      select series, epoch_us("at")::double / 1000, value, received_after_s, decimals
      from (select * from reduced union all select * from beyond) order by "at"`)
    return reader.getRows().map(([series, at, value, received, decimals]) => ({
      series: Number(series),
      atEpochMs: Number(at),
      value: value === null ? null : Number(value),
      receivedAfterSeconds: Number(received),
      decimals: Number(decimals),
    }))
  } finally {
    connection.closeSync()
  }
}

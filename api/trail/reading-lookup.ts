import type { Receipt } from '#contract/receipt.ts'
import { zeroBaseline } from '#domain/baseline/zero-baseline.ts'
import { barometerAt, barometersOf } from '#domain/reduction/barometer-in-force.ts'
import { calibrationAt } from '#domain/reduction/calibration-in-force.ts'
import { companionAges } from '#domain/reduction/companion-age.ts'
import { clockRecordAt } from '#domain/reduction/logger-clock.ts'
import { quality } from '#domain/reduction/quality.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import type { TrailReading } from '#domain/reduction/trail-source.ts'
import { ventingOf } from '#domain/reduction/venting-remark.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Recipe } from '../slices/recipe.ts'
import type { Store } from '../store/store.ts'

/** Finds raw readings with all that their values depend on. */
export interface ReadingLookup {
  /** The last reading of a sensor's series at or before an instant, or null. */
  lastReading(series: string, atEpochMs: number): Promise<TrailReading | null>
  /** The last reading at or before an instant that has a value and is not older than stated, or null. */
  lastValued(series: string, atEpochMs: number, maximumAgeMinutes: number): Promise<TrailReading | null>
  /** The last instant at or before one at which any of some series was read. */
  lastInstant(series: readonly string[], atEpochMs: number): Promise<number | null>
  close(): void
}

interface RawRow {
  readonly channel: number
  readonly atEpochMs: number
  readonly receivedAtEpochMs: number
  readonly raw: number
  readonly batch: number
  /** As its logger sent it. */
  readonly stampEpochMs: number
}

/** Looks into the store's readings up to `untilEpochMs`, inclusive. */
export async function openReadingLookup(
  {
    store,
    site,
    model,
    recipe,
  }: { readonly store: Store; readonly site: string; readonly model: SiteModel; readonly recipe: Recipe },
  untilEpochMs: number,
): Promise<ReadingLookup> {
  const connection = await store.connect()
  await store.exposeReadings(connection, 'trail_reading', {
    site,
    untilEpochMs: untilEpochMs + 1,
    clocks: recipe.clocks,
  })
  const batches = new Map((await store.listBatches(site)).map((receipt) => [receipt.batch, receipt]))
  const channels = new Map((await store.listChannels(site)).map((key) => [key.channel, key]))
  const sensors = new Map(model.sensors.map((sensor) => [sensor.id, sensor]))
  const barometers = barometersOf(model.sensorBarometers)

  /** The newest raw rows of a series in [from, at], newest first. */
  async function rows(
    series: string,
    fromEpochMs: number,
    atEpochMs: number,
    most: number,
  ): Promise<RawRow[]> {
    const links = recipe.links.filter((link) => link.series === recipe.numberOf.get(series))
    if (links.length === 0) return []
    const wired = links
      .map(
        (link) =>
          `(channel = ${link.channel} and us >= ${link.fromEpochMs}000 and us < ${link.untilEpochMs}000)`,
      )
      .join(' or ')
    const reader = await connection.runAndReadAll(`
      select channel, us, epoch_us(received_at), raw, batch, epoch_us(stamp)
      from (select *, epoch_us("at") as us from trail_reading where channel in (${links.map((link) => link.channel).join(', ')}))
      where us >= ${Math.trunc(fromEpochMs * 1000)} and us <= ${Math.trunc(atEpochMs * 1000)} and (${wired})
      order by us desc limit ${most}`)
    return reader.getRows().map((row) => ({
      channel: Number(row[0]),
      atEpochMs: Number(row[1]) / 1000,
      receivedAtEpochMs: Number(row[2]) / 1000,
      raw: Number(row[3]),
      batch: Number(row[4]),
      stampEpochMs: Number(row[5]) / 1000,
    }))
  }

  async function withCompanions(series: string, row: RawRow): Promise<TrailReading> {
    const sensor = sensors.get(series)
    const calibration = calibrationAt(recipe.calibrations.get(series) ?? [], row.atEpochMs)
    const ages = companionAges(calibration?.steps ?? [])
    const temperature = await companion(
      sensor?.temperatureSensor ?? null,
      row.atEpochMs,
      ages.temperatureMinutes,
    )
    const named = sensor ? barometerAt(barometers(sensor), row.atEpochMs) : null
    const barometer = await companion(named?.barometer ?? null, row.atEpochMs, ages.barometerMinutes)
    const channel = channels.get(row.channel)
    const batch: Receipt | undefined = batches.get(row.batch)
    const late = row.receivedAtEpochMs - row.atEpochMs > (sensor?.lateAfterMinutes ?? Infinity) * 60_000
    const reading = {
      series,
      logger: channel?.logger ?? '',
      channel: channel?.name ?? '',
      atEpochMs: row.atEpochMs,
      receivedAtEpochMs: row.receivedAtEpochMs,
      raw: row.raw,
      rawUnit: sensor?.rawUnit ?? '',
      unit: sensor?.unit ?? '',
      fileName: batch?.fileName ?? '',
      sha256: batch?.sha256 ?? '',
      fileRemark: batch?.message ?? null,
      calibration,
      zero: calibration && zeroBaseline(calibration, model.zeroReadings),
      rawResolution: sensor?.rawResolution ?? null,
      venting: sensor ? ventingOf(sensor) : null,
      temperature,
      barometer,
      barometerRecord: named?.record ?? null,
      stampEpochMs: row.stampEpochMs,
      clockRecord: channel ? clockRecordAt(model.loggerClocks, channel.logger, row.stampEpochMs) : null,
      quality: late ? quality.receivedLate : 0,
    }
    const value = reducedValue(reading)
    const outside =
      value !== null && (value < (sensor?.rangeLow ?? -Infinity) || value > (sensor?.rangeHigh ?? Infinity))
    return outside ? { ...reading, quality: reading.quality | quality.outOfRange } : reading
  }

  /** The nearest earlier companion reading that has a value and is not too old: as when values are published. */
  async function companion(
    series: string | null,
    atEpochMs: number,
    maximumAgeMinutes: number | null,
  ): Promise<TrailReading | null> {
    if (series === null || maximumAgeMinutes === null) return null
    for (const row of await rows(series, atEpochMs - maximumAgeMinutes * 60_000, atEpochMs, 50)) {
      const reading = await withCompanions(series, row)
      if (reducedValue(reading) !== null) return reading
    }
    return null
  }

  return {
    async lastReading(series, atEpochMs) {
      const [row] = await rows(series, 0, atEpochMs, 1)
      return row ? withCompanions(series, row) : null
    },
    lastValued: companion,
    async lastInstant(series, atEpochMs) {
      let last: number | null = null
      for (const one of series) {
        const [row] = await rows(one, 0, atEpochMs, 1)
        if (row && (last === null || row.atEpochMs > last)) last = row.atEpochMs
      }
      return last
    },
    close: () => connection.closeSync(),
  }
}

const reducedValue = (reading: TrailReading): number | null =>
  reading.calibration
    ? reduceValue(reading.raw, reading.calibration.steps, {
        temperatureDegC: reading.temperature ? reducedValue(reading.temperature) : null,
        barometerKpa: reading.barometer ? reducedValue(reading.barometer) : null,
      }).value
    : null

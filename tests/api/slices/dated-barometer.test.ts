import { DuckDBInstance } from '@duckdb/node-api'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { readRecipe } from '../../../api/slices/recipe.ts'
import { recipeOfInstrument } from '../../../api/slices/recipe-of-instrument.ts'
import { findTrail } from '../../../api/trail/find-trail.ts'
import { openSamplePublisher, type SamplePublisher } from '../../support/open-sample-publisher.ts'
import { takeReadings } from '../../support/take-readings.ts'

const site = 'skarrow-quay'
const hour = 3_600_000
/** The day before July to the day after it began; the barometer is changed at noon on 1 July. */
const from = Date.UTC(2027, 5, 30)
const until = Date.UTC(2027, 6, 3)
const noon = Date.UTC(2027, 6, 1, 12)
const [tip, other] = ['PZ-01A/pore-pressure', 'PZ-02A/pore-pressure']
const [first, second] = ['BA-01/barometric-pressure', 'BA-02/barometric-pressure']
/** Invented voltages of the two barometers. */
const volts = { first: 1.1, second: 1.2 }
const signature = { author: 'A. Reed', account: null, reason: 'nearer', atEpochMs: until }

let sample: SamplePublisher
let engine: Awaited<ReturnType<DuckDBInstance['connect']>>

beforeAll(async () => {
  sample = await openSamplePublisher(until)
  engine = await (await DuckDBInstance.create(':memory:')).connect()
  const instants = Array.from({ length: (until - from) / hour }, (_, at) => from + at * hour)
  await takeReadings(
    sample.store,
    site,
    instants.flatMap((atEpochMs, at) => [
      { sensor: tip, atEpochMs, raw: 345 + Math.sin(at) / 10 },
      { sensor: 'PZ-01A/temperature', atEpochMs, raw: 5200 + at },
      { sensor: other, atEpochMs, raw: 350 + Math.cos(at) / 10 },
      { sensor: 'PZ-02A/temperature', atEpochMs, raw: 5250 - at },
      { sensor: first, atEpochMs, raw: volts.first },
      { sensor: second, atEpochMs, raw: volts.second },
    ]),
    until,
  )
  await sample.publisher.publish(site)
})
afterAll(() => sample.close())

const modelNow = async () => (await sample.store.getSite(site)) as SiteModel

/** Published raw values by series and instant, and the name of each slice. */
async function published() {
  const list = await sample.publisher.sliceList(site)
  const raw = (list?.slices ?? []).filter(({ resolution }) => resolution === 'raw')
  const values = new Map<string, number | null>()
  for (const [at, { url }] of raw.entries()) {
    const path = await sample.publisher.sliceFile(site, url.split('/').at(-1) ?? '')
    await engine.run(`attach '${path}' as raw_${at} (read_only)`)
    const reader = await engine.runAndReadAll(
      `select series, epoch_ms("at")::double, value from raw_${at}.value`,
    )
    for (const [series, instant, value] of reader.getRows())
      values.set(`${series} ${instant}`, value === null ? null : Number(value))
    await engine.run(`detach raw_${at}`)
  }
  return { values, names: new Map(raw.map(({ month, url }) => [month, url])) }
}

test('a barometer changed on a date changes the values from that date on by its difference, and no other', async () => {
  const before = await published()
  const model = await modelNow()
  const approvalOf = recipeOfInstrument(model, await readRecipe(sample.store, site, model))
  const instrument = model.points.find(({ id }) => id === 'PZ-01A')?.instrument ?? ''
  await sample.store.addRows(
    site,
    {
      sensorBarometers: [
        { sensor: tip, version: 1, validFrom: noon, barometer: second, author: 'A. Reed', reason: 'nearer' },
      ],
    },
    signature,
  )
  await sample.publisher.publish(site)
  const after = await published()
  const [tipNumber] = await sample.store.seriesNumbers(site, [tip])
  const changed = [...after.values].filter(([key, value]) => before.values.get(key) !== value)
  expect(after.values.size).toBe(before.values.size)
  expect(changed.map(([key]) => key)).toEqual(
    Array.from({ length: (until - noon) / hour }, (_, at) => `${tipNumber} ${noon + at * hour}`),
  )
  expect(after.names.get('2027-06')).toBe(before.names.get('2027-06'))
  expect(after.names.get('2027-07')).not.toBe(before.names.get('2027-07'))

  // A sealed tip feels the whole change of the air, so its value differs by what the barometers differ by, reversed.
  const read = readCalibrations(model)
  if (!read.ok) throw new Error('calibrations')
  const airOf = (sensor: string, raw: number) =>
    reduceValue(raw, read.value.find((one) => one.sensor === sensor)?.steps ?? [], {
      temperatureDegC: null,
      barometerKpa: null,
    }).value ?? Number.NaN
  const difference = airOf(second, volts.second) - airOf(first, volts.first)
  expect(Math.abs(difference)).toBeGreaterThan(0.5)
  const decimals = model.sensors.find(({ id }) => id === tip)?.decimals ?? 0
  for (const [key, value] of changed)
    expect(Math.abs((value ?? 0) - ((before.values.get(key) ?? 0) - difference))).toBeLessThanOrEqual(
      10 ** -decimals + 1e-9,
    )

  // What was approved before that noon stands; what was after is provisional again.
  const now = await modelNow()
  const approvalNow = recipeOfInstrument(now, await readRecipe(sample.store, site, now))
  expect(approvalNow(instrument, from, noon)).toBe(approvalOf(instrument, from, noon))
  expect(approvalNow(instrument, from, until)).not.toBe(approvalOf(instrument, from, until))
})

test('the trail takes the barometer of its instant, says since when, and agrees with what is published', async () => {
  const model = await modelNow()
  const recipe = await readRecipe(sample.store, site, model)
  const { values } = await published()
  const [tipNumber] = await sample.store.seriesNumbers(site, [tip])
  const trailAt = async (atEpochMs: number) => {
    const found = await findTrail(
      {
        store: sample.store,
        site,
        model,
        recipe,
        index: { form: 4, revision: 0, months: {}, calibrations: [] },
        failed: false,
      },
      tip,
      atEpochMs,
    )
    if (!found.ok) throw new Error('no trail')
    return found.value
  }
  for (const [atEpochMs, barometer] of [
    [noon - hour, first],
    [noon, second],
  ] as const) {
    const { sources, value } = await trailAt(atEpochMs)
    expect(sources.find(({ role }) => role === 'barometer')?.series).toBe(barometer)
    expect(value).toBeCloseTo(values.get(`${tipNumber} ${atEpochMs}`) ?? Number.NaN, 2)
    const says = sources.find(({ role }) => role === 'reading')?.barometerSentence
    if (barometer === first) expect(says).toBeUndefined()
    else expect(says).toContain('Corrected by BA-02/barometric-pressure from')
  }
})

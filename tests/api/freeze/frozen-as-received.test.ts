import { afterEach, expect, test } from 'vitest'
import type { AlertsDocument } from '#contract/alerts.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { StateDocument } from '#contract/state-document.ts'
import type { SiteModel } from '#domain/site/site.ts'
import { readSiteFolder } from '../../../api/site-folder.ts'
import { fewInstruments } from '../../support/few-instruments.ts'
import { type OpenFreezing, openFreezing, type ReceivedReading } from '../../support/open-freezing.ts'

const hour = 3_600_000
const day = 24 * hour
const from = Date.UTC(2027, 2, 20)
const days = 56
const until = from + days * day

const opened: OpenFreezing[] = []
afterEach(async () => {
  for (const one of opened.splice(0)) await one.close()
})

/** Records of the sample with a present that is the clock's. */
async function realSite(): Promise<SiteModel> {
  const read = await readSiteFolder('sample-site')
  if (!read.ok) throw new Error('sample')
  const marks = [32, 33, 34, 35, 36, 37, 38, 39].map((mark) => `SP-${mark}`)
  const model = fewInstruments(read.value.model, ['PZ-01', 'BA-01', 'EX-01', 'SL-01', ...marks])
  return { ...model, facts: { ...model.facts, invented: false, presentEpochMs: null } }
}

/**
 * A tip with its thermistor and barometer, anchors that stand on a survey for days, and marks of a structure read in
 * rounds: values and marks that hang on readings of the month before and after. Most arrive at once, some by hand days
 * and weeks later, one on the very microsecond of the cut-off and one just after.
 */
function readingsOf(random: () => number, model: SiteModel, cutOffEpochMs: number): ReceivedReading[] {
  const barometer =
    model.sensors.find(({ id }) => id === 'PZ-01A/pore-pressure')?.barometerSensor ?? 'no barometer'
  const delay = () => {
    const kind = random()
    return kind < 0.7 ? 5_000_000 : kind < 0.9 ? random() * 3 * day * 1000 : random() * 40 * day * 1000
  }
  const readings: ReceivedReading[] = []
  const add = (sensor: string, atEpochMs: number, raw: number) =>
    readings.push({
      sensor,
      atEpochMs,
      raw,
      receivedMicros: BigInt(atEpochMs) * 1000n + BigInt(Math.round(delay())),
    })
  for (let at = from; at < until; at += 6 * hour) {
    const spike = random() < 0.03 ? 40 : 0
    add('PZ-01A/pore-pressure', at, 345 + random() + spike)
    add('PZ-01A/temperature', at, 5200 + random() * 30)
    add(barometer, at - hour / 2, 12 + random() / 10)
    add('EX-01-2/displacement', at, 13.7 + random() / 10)
  }
  for (let at = from + hour; at < until; at += 7 * day) {
    add('EX-01/settlement', at, 4.55 + random() / 100)
    for (let mark = 32; mark <= 39; mark++)
      add(`SP-${mark}/settlement`, at + (mark * hour) / 20, 4.5 + random() / 10)
  }
  const atCutOff = readings[Math.floor(random() * 200)] as ReceivedReading
  const after = readings[200 + Math.floor(random() * 200)] as ReceivedReading
  return readings.map((one) => ({
    ...one,
    receivedMicros:
      one === atCutOff
        ? BigInt(cutOffEpochMs) * 1000n
        : one === after
          ? BigInt(cutOffEpochMs) * 1000n + 1n
          : one.receivedMicros,
  }))
}

const inBatches = <T>(rows: readonly T[], count: number): readonly (readonly T[])[] =>
  Array.from({ length: count }, (_, at) =>
    rows.slice(Math.floor((at * rows.length) / count), Math.floor(((at + 1) * rows.length) / count)),
  )

/** The clock of the tip's logger stood two hours and more ahead from the end of a month on, and was set three weeks later. */
function withClock(model: SiteModel): SiteModel {
  const logger = model.wiring.find(({ sensor }) => sensor === 'PZ-01A/pore-pressure')?.logger ?? ''
  const clock = (version: number, validFrom: number, addedSeconds: number, addedSecondsPerDay: number) => ({
    logger,
    version,
    validFrom,
    addedSeconds,
    addedSecondsPerDay,
    author: 'A',
    reason: 'test',
  })
  return {
    ...model,
    loggerClocks: [
      clock(1, Date.UTC(2027, 2, 31, 23), -2.5 * 3600, -20),
      clock(2, Date.UTC(2027, 3, 21), 0, 0),
    ],
  }
}

test.each([
  [20270320, false],
  [20270321, true],
  [20270322, false],
])(
  'what is frozen is what a store publishes that received no more, seed %i, with a clock put right %s',
  async (seed, isPutRight) => {
    const random = mulberry32(seed)
    const sent = await realSite()
    const model = isPutRight ? withClock(sent) : sent
    const cutOffEpochMs = Math.round(from + (0.3 + 0.6 * random()) * days * day)
    const readings = readingsOf(random, model, cutOffEpochMs)
    const byThen = readings.filter(({ receivedMicros }) => receivedMicros <= BigInt(cutOffEpochMs) * 1000n)
    expect(byThen.length).toBeLessThan(readings.length)

    // Received by hand or by gateways: batches come in any order of receipt.
    const whole = await openFreezing(model, until + 60 * day)
    opened.push(whole)
    const shuffled = readings
      .map((one) => ({ one, key: random() < 0.8 ? Number(one.receivedMicros) : random() * 4e15 }))
      .toSorted((one, other) => one.key - other.key)
      .map(({ one }) => one)
    for (const [at, batch] of inBatches(shuffled, 6).entries()) {
      await whole.take(batch)
      if (at === 2) await whole.publisher.publish(whole.site)
    }
    await whole.publisher.publish(whole.site)
    await whole.alerts.arrived(whole.site)
    const frozen = await whole.freeze(cutOffEpochMs)

    const only = await openFreezing(model, cutOffEpochMs)
    opened.push(only)
    for (const batch of inBatches(byThen, 2)) await only.take(batch)
    await only.publisher.publish(only.site)
    await only.alerts.arrived(only.site)

    const expected = await only.publishedValues()
    expect(expected.length).toBeGreaterThan(500)
    expect(await whole.frozenValues(frozen)).toEqual(expected)
    expect(await whole.publishedValues()).not.toEqual(expected)
    const rows = expected.filter((line) => line.startsWith('raw')).length
    expect(frozen.readings.all).toBe(rows)

    const state = await whole.json<StateDocument>(frozen, 'state')
    const stateThen = JSON.parse((await only.publisher.stateDocument(only.site))?.json ?? '') as StateDocument
    expect(state.asOfEpochMs).toBe(cutOffEpochMs)
    expect(state.states).toEqual(stateThen.states)
    const site = await whole.json<SiteDocument>(frozen, 'site')
    const siteThen = JSON.parse((await only.publisher.siteDocument(only.site))?.json ?? '') as SiteDocument
    expect(site.facts.presentEpochMs).toBe(cutOffEpochMs)
    expect({ ...site, facts: null }).toEqual({ ...siteThen, facts: null })
    const alerts = await whole.json<AlertsDocument>(frozen, 'alerts')
    const alertsThen = (await only.alerts.document(only.site, false)) as AlertsDocument
    const { crossings, unknown, watchedSeries, unreadSeries } = alertsThen
    expect(alerts).toMatchObject({ crossings, unknown, watchedSeries, unreadSeries })
    expect(watchedSeries + unreadSeries).toBeGreaterThan(0)
  },
  180_000,
)

/** Small seeded generator. */
function mulberry32(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let t = Math.imul(state ^ (state >>> 15), 1 | state)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

import { DuckDBInstance } from '@duckdb/node-api'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { failBit, suspectBit } from '#domain/flags/reading-checks.ts'
import type { Publisher } from '../../../api/slices/publisher.ts'
import type { Store } from '../../../api/store/store.ts'
import { openSamplePublisher, type SamplePublisher } from '../../support/open-sample-publisher.ts'
import { takeReadings } from '../../support/take-readings.ts'

const site = 'skarrow-quay'
const hour = 3_600_000
/** Midnight at which one month ends and the next begins. */
const june = Date.UTC(2027, 5, 1)
/** Raw volts of TL-01 at its zero; 0.1 V is 0.12 deg. */
const still = 0.2078

let sample: SamplePublisher
let store: Store
let publisher: Publisher
beforeAll(async () => {
  sample = await openSamplePublisher(june)
  ;({ store, publisher } = sample)
})
afterAll(() => sample.close())

/** TL-01/tilt hour by hour from `from` hours before the month's end. */
const take = (from: number, volts: readonly number[], sensor = 'TL-01/tilt') =>
  takeReadings(
    store,
    site,
    volts.map((raw, at) => ({ sensor, atEpochMs: june + (from + at) * hour, raw })),
    june,
  )

async function marks(series: string, resolution: 'raw' | 'hour' | 'day'): Promise<Map<number, number>> {
  const [number] = await store.seriesNumbers(site, [series])
  const instance = await DuckDBInstance.create(':memory:')
  const connection = await instance.connect()
  const found = new Map<number, number>()
  for (const slice of (await publisher.sliceList(site))?.slices ?? []) {
    if (slice.resolution !== resolution) continue
    const path = await publisher.sliceFile(site, slice.url.split('/').at(-1) ?? '')
    await connection.run(`attach '${path}' as slice (read_only)`)
    const reader = await connection.runAndReadAll(
      `select epoch_ms("at")::double, flags::integer from slice.${resolution === 'raw' ? 'value' : 'rollup'} where series = ${number}`,
    )
    for (const [at, flags] of reader.getRows()) found.set((Number(at) - june) / hour, Number(flags))
    await connection.run('detach slice')
  }
  connection.closeSync()
  instance.closeSync()
  return found
}

const stateOf = async (series: string) => {
  const [number] = await store.seriesNumbers(site, [series])
  const { states } = JSON.parse((await publisher.stateDocument(site))?.json ?? '{}')
  return states.find((state: { series: number }) => state.series === number)
}

it('marks the last reading of a month when the next month tells that it was a spike, and makes only what it must', async () => {
  // 0.018 deg off: too far for a spike and for an hour, too little for its neighbours to look like spikes too.
  await take(-3, [still, still + 0.0001, still + 0.015])
  await publisher.publish(site)
  // What comes after is not known yet: a rate of change, no spike.
  expect((await marks('TL-01/tilt', 'raw')).get(-1)).toBe(suspectBit('rate-of-change'))
  await take(0, [still + 0.0002, still])
  const seen: string[] = []
  await publisher.publish(site, (month) => seen.push(month))
  expect(seen).toContain('2027-05')
  const raw = await marks('TL-01/tilt', 'raw')
  expect(raw.get(-1)).toBe(suspectBit('rate-of-change') | suspectBit('spike'))
  // The first reading of June has its neighbour in May.
  expect(raw.get(0)).toBe(suspectBit('rate-of-change'))
  expect([raw.get(-3), raw.get(-2), raw.get(1)]).toEqual([0, 0, 0])
  expect((await marks('TL-01/tilt', 'hour')).get(-1)).toBe(raw.get(-1))
  expect((await marks('TL-01/tilt', 'day')).get(-24)).toBe(raw.get(-1))
})

it('lets a marked reading reach its level: it is neither dropped nor hidden', async () => {
  await take(2, [still, still + 0.07])
  await take(2, [still, 3.5], 'TL-03/tilt')
  await publisher.publish(site)
  // Past the first level within an hour, and out of the sensor's range.
  expect(await stateOf('TL-01/tilt')).toMatchObject({ level: 1, flags: suspectBit('rate-of-change') })
  expect(await stateOf('TL-03/tilt')).toMatchObject({
    level: 2,
    flags: failBit('range') | suspectBit('rate-of-change'),
  })
  expect((await stateOf('TL-03/tilt')).value).toBeGreaterThan(3)
  await take(4, [still])
  await publisher.publish(site)
  // Coming back within the hour is as fast as going.
  expect(await stateOf('TL-01/tilt')).toMatchObject({ level: null, flags: suspectBit('rate-of-change') })
})

it('passes the marks of members on to what is made of them', async () => {
  const gauges = [1, 2, 3, 4].map((gauge) => `ST-01-${gauge}/force`)
  await takeReadings(
    store,
    site,
    gauges.map((sensor, at) => ({
      sensor,
      atEpochMs: june + 5 * hour,
      raw: 1000 + at,
      // One logger's clock ran ten minutes ahead.
      receivedAfterMs: at === 2 ? -10 * 60_000 : 5000,
    })),
    june,
  )
  await publisher.publish(site)
  expect((await stateOf('ST-01-3/force')).flags & suspectBit('clock')).toBe(suspectBit('clock'))
  expect((await stateOf('ST-01-1/force')).flags & suspectBit('clock')).toBe(0)
  expect((await stateOf('ST-01/force')).flags & suspectBit('clock')).toBe(suspectBit('clock'))
})

it('passes the marks of a survey on to what stands on it, until the next one, across the end of a month', async () => {
  const model = await store.getSite(site)
  const points = (model?.structureLines ?? [])
    .filter(({ line }) => line === 'SL-01')
    .map(({ point }) => point)
  const levelOf = (point: string, settledMm: number) => {
    const calibration = model?.calibrations.find(({ sensor }) => sensor === `${point}/settlement`)?.id
    const step = model?.calibrationSteps.find((one) => one.calibration === calibration && one.kind === 'zero')
    return Number(step?.parameters?.replace('value=', '')) - settledMm / 1000
  }
  const level = (point: string, settledMm: number, hours: number) => ({
    sensor: `${point}/settlement`,
    atEpochMs: june + hours * hour,
    raw: levelOf(point, settledMm),
  })
  const [first = '', ...others] = points
  expect(others).toHaveLength(7)
  // Within six hours, over midnight: the first mark, in May, has settled further than any is expected to.
  await takeReadings(
    store,
    site,
    [level(first, 50, -1), ...others.map((point, at) => level(point, 2, 0.5 + at / 10))],
    june,
  )
  // A week on the round is as expected.
  const week = 7 * 24
  await takeReadings(
    store,
    site,
    points.map((point, at) => level(point, 2, week + at / 10)),
    june,
  )
  await publisher.publish(site)
  expect((await marks(`${first}/settlement`, 'raw')).get(-1)).toBe(suspectBit('range'))
  const ratio = [...(await marks('SL-01/deflection-ratio', 'raw'))]
  // Instants of a round at which every mark had its level.
  expect(ratio.filter(([at]) => at > 0 && at < 24).map(([, flags]) => flags)).toEqual([suspectBit('range')])
  expect(ratio.filter(([at]) => at >= week).map(([, flags]) => flags)).toEqual([0])
  const trail = await publisher.trail(site, 'SL-01/deflection-ratio', june + 2 * hour)
  if (!trail.ok) throw new Error('no trail')
  expect(trail.value.marks).toHaveLength(1)
  expect(trail.value.marks[0]).toMatch(
    /^SP-32\/settlement, suspect: range\..*Surveyed 2027-05-31; it stands here until the next survey\.$/,
  )
  // A round of which one mark only was read leaves the line as old as its last complete round.
  await takeReadings(store, site, [level(first, 3, 2 * week)], june)
  await publisher.publish(site)
  const complete = june + (week + 0.7) * hour
  expect((await stateOf('SL-01/deflection-ratio')).atEpochMs).toBe(complete)
  const partly = await publisher.trail(site, 'SL-01/deflection-ratio', june + (2 * week + 1) * hour)
  if (!partly.ok) throw new Error('no trail')
  expect(partly.value.value).toBeNull()
  expect(partly.value.cautions[0]).toBe(
    `SL-01/deflection-ratio: the round at this instant is not complete, so it has no value. Plan and histories show the last complete round, of 2027-06-08 00:42 UTC: that is older, and lateness counts from there.`,
  )
})

it('makes anew the months that new limits reach, and no earlier ones', async () => {
  const model = await store.getSite(site)
  const own = model?.checkLimits.find(({ measure, check }) => measure === 'tilt' && check === 'spike')
  if (!own) throw new Error('no limit')
  await store.addRows(
    site,
    { checkLimits: [{ ...own, id: 'CL-later', suspectAbove: 0.5, validFrom: june }] },
    { author: 'A. Tester', reason: 'test', atEpochMs: 0 },
  )
  const seen: string[] = []
  await publisher.publish(site, (month) => seen.push(month))
  expect(seen).toContain('2027-06')
  expect(seen).not.toContain('2027-05')
})

it('says of a marked value which check, what was seen, and whose limit since when', async () => {
  const trail = await publisher.trail(site, 'TL-01/tilt', june - hour)
  if (!trail.ok) throw new Error('no trail')
  expect(trail.value.marks).toHaveLength(2)
  const [rate, spike] = trail.value.marks
  expect(rate).toMatch(/^TL-01\/tilt, suspect: rate of change\. The change in an hour.* is 0\.017\d*°/)
  expect(rate).toContain(
    'above 0.012° in an hour. Limit CL-10, in force since 2027-02-08 00:00 UTC, set by Monitoring engineer: Buildings',
  )
  expect(spike).toMatch(
    /suspect: spike\. Its distance from the line between its neighbours is 0\.017\d*°, above 0\.012°/,
  )
  const strut = await publisher.trail(site, 'ST-01/force', june + 5 * hour)
  if (!strut.ok) throw new Error('no trail')
  expect(strut.value.marks.join(' ')).toMatch(
    /ST-01-3\/force, suspect: clock\. .* is −600 s, below −120 s\. A reading/,
  )
  const failed = await publisher.trail(site, 'TL-03/tilt', june + 3 * hour)
  if (!failed.ok) throw new Error('no trail')
  expect(failed.value.marks[0]).toMatch(
    /TL-03\/tilt, fails: range\. .*, outside −3° to 3°\. The limit is the sensor's stated range\./,
  )
})

it('keeps a verdict beside the marks: a rejected stretch still reaches its level, and no slice changes', async () => {
  const before = await stateOf('TL-03/tilt')
  await store.addRows(
    site,
    {
      verdicts: [
        {
          id: 'V-1',
          series: 'TL-03/tilt',
          fromAt: june,
          untilAt: null,
          verdict: 'rejected',
          reason: 'Bracket found loose',
          alternatives: 'Movement of the wall: TL-02 beside it stands still',
          author: 'A. Tester',
          at: june + 24 * hour,
        },
      ],
    },
    { author: 'A. Tester', reason: 'test', atEpochMs: 0 },
  )
  const report = await publisher.publish(site)
  expect(report.files).toBe(0)
  expect(await stateOf('TL-03/tilt')).toEqual(before)
  expect(before.level).toBe(2)
  const trail = await publisher.trail(site, 'TL-03/tilt', june + 3 * hour)
  if (!trail.ok) throw new Error('no trail')
  expect(trail.value.verdicts).toEqual([
    'TL-03/tilt: rejected by A. Tester on 2027-06-02. Bracket found loose. Also considered: Movement of the wall: TL-02 beside it stands still.',
  ])
  expect(trail.value.marks).not.toHaveLength(0)
  const document = JSON.parse((await publisher.siteDocument(site))?.json ?? '{}')
  expect(document.verdicts.map(({ id }: { id: string }) => id)).toContain('V-1')
})

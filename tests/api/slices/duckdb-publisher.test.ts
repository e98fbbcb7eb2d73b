import { DuckDBInstance } from '@duckdb/node-api'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { quality } from '#domain/reduction/quality.ts'
import { readCalibrations } from '#domain/reduction/read-calibrations.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'
import type { Publisher } from '../../../api/slices/publisher.ts'
import type { Store } from '../../../api/store/store.ts'
import { openSamplePublisher, type SamplePublisher } from '../../support/open-sample-publisher.ts'
import { type GivenReading, takeReadings } from '../../support/take-readings.ts'

const site = 'skarrow-quay'
const hour = 3_600_000
const start = Date.UTC(2027, 2, 31, 18)

let sample: SamplePublisher
let store: Store
let publisher: Publisher
/** Slices by resolution and month, attached under a name of the test's own. */
const attached = new Map<string, string>()
let engine: Awaited<ReturnType<DuckDBInstance['connect']>>

beforeAll(async () => {
  sample = await openSamplePublisher(start)
  ;({ store, publisher } = sample)
  engine = await (await DuckDBInstance.create(':memory:')).connect()
})
afterAll(() => sample.close())

const take = (readings: readonly GivenReading[]) => takeReadings(store, site, readings, start)

async function attachAll(): Promise<void> {
  for (const alias of attached.values()) await engine.run(`detach ${alias}`)
  attached.clear()
  const list = await publisher.sliceList(site)
  for (const slice of list?.slices ?? []) {
    const path = await publisher.sliceFile(site, slice.url.split('/').at(-1) ?? '')
    const alias = `held_${slice.resolution}_${slice.month.replace('-', '_')}`
    await engine.run(`attach '${path}' as ${alias} (read_only)`)
    attached.set(`${slice.resolution} ${slice.month}`, alias)
  }
}

const numberOf = async (series: string) => (await store.seriesNumbers(site, [series]))[0]

async function rows(sql: string) {
  return (await engine.runAndReadAll(sql)).getRowObjectsJS()
}

describe('publishing', () => {
  it('reduces a piezometer with its thermistor and barometer, across the end of a month', async () => {
    const model = await store.getSite(site)
    const tip = model?.sensors.find((sensor) => sensor.id === 'PZ-01A/pore-pressure')
    expect(tip).toBeDefined()
    const hours = [0, 1, 2, 3, 4, 5, 6, 7, 8]
    await take([
      ...hours.map((at) => ({
        sensor: 'PZ-01A/pore-pressure',
        atEpochMs: start + at * hour,
        raw: 345 + at / 10,
      })),
      ...hours.map((at) => ({ sensor: 'PZ-01A/temperature', atEpochMs: start + at * hour, raw: 5200 + at })),
      // The barometer is read half an hour earlier, and not for the last hours.
      ...hours.slice(0, 6).map((at) => ({
        sensor: tip?.barometerSensor ?? '',
        atEpochMs: start + at * hour - hour / 2,
        raw: 12 + at / 100,
      })),
    ])
    const report = await publisher.publish(site)
    expect(report.months).toBeGreaterThanOrEqual(2)
    await attachAll()

    const read = readCalibrations(model as NonNullable<typeof model>)
    if (!read.ok) throw new Error('calibrations')
    const chain = (sensor: string) => read.value.find((one) => one.sensor === sensor)?.steps ?? []
    const expected = hours.map((at) => {
      const temperatureDegC = reduceValue(5200 + at, chain('PZ-01A/temperature'), none).value
      const barometerHour = Math.min(at, 5)
      const tooOld = (at - barometerHour + 0.5) * 60 > Number(ageOf(chain('PZ-01A/pore-pressure')))
      const barometerKpa = tooOld
        ? null
        : reduceValue(12 + barometerHour / 100, chain(tip?.barometerSensor ?? ''), none).value
      return reduceValue(345 + at / 10, chain('PZ-01A/pore-pressure'), { temperatureDegC, barometerKpa })
    })
    const series = await numberOf('PZ-01A/pore-pressure')
    const published = [
      ...(await rows(
        `select * from ${attached.get('raw 2027-03')}.value where series = ${series} order by "at"`,
      )),
      ...(await rows(
        `select * from ${attached.get('raw 2027-04')}.value where series = ${series} order by "at"`,
      )),
    ]
    expect(published).toHaveLength(hours.length)
    for (const [at, row] of published.entries()) {
      const value = expected[at]?.value ?? null
      if (value === null) expect(row.value).toBeNull()
      else expect(row.value).toBeCloseTo(value, tip?.decimals ?? 2)
      expect(Number(row.quality) & ~quality.outOfRange).toBe(expected[at]?.quality)
      expect((row.at as Date).getTime()).toBe(start + at * hour)
    }
    expect(expected.at(-1)?.quality).toBe(quality.barometerMissing)
  })

  it('rolls up by hour and day, and its views hold under another name', async () => {
    const march = attached.get('hour 2027-03')
    const series = await numberOf('PZ-01A/temperature')
    await take([
      { sensor: 'PZ-01A/temperature', atEpochMs: start + hour / 4, raw: 5100 },
      { sensor: 'PZ-01A/temperature', atEpochMs: start + hour / 2, raw: 5400 },
    ])
    await publisher.publish(site)
    await attachAll()
    expect(march).toBeDefined()
    const [first, second] = await rows(
      `select * from ${attached.get('hour 2027-03')}.rollup where series = ${series} order by "at"`,
    )
    const raw = await rows(
      `select value from ${attached.get('raw 2027-03')}.value where series = ${series} and "at" < make_timestamp(${(start + hour) * 1000}) order by "at"`,
    )
    const values = raw.map((row) => Number(row.value))
    expect(values).toHaveLength(3)
    expect(first).toMatchObject({
      n: 3,
      low: Math.min(...values),
      high: Math.max(...values),
      last: values[2],
    })
    expect(first?.last_at).toEqual(new Date(start + hour / 2))
    expect(second).toMatchObject({ n: 1 })
    expect(second?.low).toBe(second?.mean)
    const [day] = await rows(
      `select * from ${attached.get('day 2027-03')}.rollup where series = ${series} order by "at"`,
    )
    expect(day?.n).toBe(8)
  })

  it('gives a late reading a new file and leaves the old list readable for a while', async () => {
    const before = await publisher.sliceList(site)
    const [old] =
      before?.slices.filter((slice) => slice.resolution === 'raw' && slice.month === '2027-03') ?? []
    await take([
      { sensor: 'PZ-01A/temperature', atEpochMs: start - 3 * hour, raw: 5000, receivedAfterMs: 48 * hour },
    ])
    await publisher.publish(site)
    const after = await publisher.sliceList(site)
    const [fresh] =
      after?.slices.filter((slice) => slice.resolution === 'raw' && slice.month === '2027-03') ?? []
    expect(fresh?.url).not.toBe(old?.url)
    expect(await publisher.sliceFile(site, old?.url.split('/').at(-1) ?? '')).not.toBeNull()
    await attachAll()
    const [row] = await rows(
      `select * from ${attached.get('raw 2027-03')}.value where received_after_s = ${48 * 3600}`,
    )
    expect(Number(row?.quality) & quality.receivedLate).toBe(quality.receivedLate)
  })

  it('gives a strut force from the gauges that have one, marked incomplete', async () => {
    const gauges = [1, 2, 3].map((gauge) => `ST-01-${gauge}/force`)
    const at = Date.UTC(2027, 5, 1)
    await take(gauges.map((sensor, index) => ({ sensor, atEpochMs: at, raw: 1000 + index })))
    await publisher.publish(site)
    await attachAll()
    const june = attached.get('raw 2027-06')
    const numbers = await store.seriesNumbers(site, [...gauges, 'ST-01/force'])
    const values = await rows(
      `select series, value, quality from ${june}.value where series in (${numbers.join(', ')})`,
    )
    const of = (series: number | undefined) => values.find((row) => row.series === series)
    const mean = numbers.slice(0, 3).reduce((sum, series) => sum + Number(of(series)?.value), 0) / 3
    expect(of(numbers[3])?.value).toBeCloseTo(mean, 0)
    expect(Number(of(numbers[3])?.quality) & quality.incomplete).toBe(quality.incomplete)
  })

  it('tells the settlement of an anchor from the last survey of its head, of the month before too, until it is too old', async () => {
    const survey = Date.UTC(2027, 3, 28, 9)
    const day = 24 * hour
    const readAt = [3, 5, 17].map((days) => survey + days * day)
    await take([
      { sensor: 'EX-01/settlement', atEpochMs: survey, raw: 4.55 },
      ...readAt.map((atEpochMs, index) => ({
        sensor: 'EX-01-2/displacement',
        atEpochMs,
        raw: 13.7 + index / 100,
      })),
    ])
    await publisher.publish(site)
    await attachAll()
    const names = ['EX-01/settlement', 'EX-01-2/displacement', 'EX-01-2/settlement']
    const numbers = await store.seriesNumbers(site, names)
    const valuesOf = async (which: number, month: string) =>
      await rows(
        `select value, quality from ${attached.get(`raw ${month}`)}.value where series = ${numbers[which]} order by "at"`,
      )
    const [head] = await valuesOf(0, '2027-04')
    const anchor = await valuesOf(1, '2027-05')
    const settled = await valuesOf(2, '2027-05')
    expect(settled).toHaveLength(3)
    for (const at of [0, 1])
      expect(settled[at]?.value).toBeCloseTo(Number(head?.value) - Number(anchor[at]?.value), 1)
    expect(settled[2]?.value).toBeNull()
    expect(Number(settled[2]?.quality) & quality.incomplete).toBe(quality.incomplete)

    const trail = await publisher.trail(site, 'EX-01-2/settlement', readAt[1] as number)
    if (!trail.ok) throw new Error('no trail')
    expect(trail.value.sources.map(({ series }) => series)).toEqual([
      'EX-01-2/displacement',
      'EX-01/settlement',
    ])
    expect(trail.value.value).toBeCloseTo(Number(settled[1]?.value), 1)
    expect(trail.value.cautions).toContain(
      'EX-01/settlement: surveyed 5 days before, the last survey until then; used up to 10 days.',
    )
    const old = await publisher.trail(site, 'EX-01-2/settlement', readAt[2] as number)
    if (!old.ok) throw new Error('no trail')
    expect(old.value.value).toBeNull()
    expect(old.value.cautions.join(' ')).toContain('has no survey in the 10 days')

    // A survey that arrives afterwards makes the months anew that it stands for.
    await take([{ sensor: 'EX-01/settlement', atEpochMs: survey + 12 * day, raw: 4.54 }])
    await publisher.publish(site)
    await attachAll()
    expect((await valuesOf(2, '2027-05')).map(({ value }) => value === null)).toEqual([false, false, false])
  })

  it('tells the distortion of a line of marks when its round is complete, across midnight of a month too', async () => {
    const marks = [32, 33, 34, 35, 36, 37, 38, 39].map((mark) => `SP-${mark}/settlement`)
    const levels = [4.5641, 4.5175, 4.506, 4.5935, 4.532, 4.5432, 4.6016, 4.5752]
    const round = (fromEpochMs: number, without: number | null = null) =>
      marks.flatMap((sensor, at) =>
        at === without
          ? []
          : [{ sensor, atEpochMs: fromEpochMs + (at * hour) / 30, raw: levels[at] as number }],
      )
    // Eight minutes before the end of August, so that the second half is read in September.
    const whole = Date.UTC(2027, 7, 31, 23, 52)
    await take([...round(whole), ...round(whole + 7 * 24 * hour, 3)])
    await publisher.publish(site)
    await attachAll()
    const series = await numberOf('SL-01/deflection-ratio')
    const found = await rows(
      `select epoch_ms("at")::double as at_ms, value, quality from ${attached.get('raw 2027-09')}.value where series = ${series}`,
    )
    // Worked by hand in sample-site/truth/hand-checked.csv.
    expect(found).toEqual([{ at_ms: whole + (7 * hour) / 30, value: -0.049, quality: 0 }])
    const august = await rows(
      `select count(*)::integer as n from ${attached.get('raw 2027-08')}.value where series = ${series}`,
    )
    expect(august).toEqual([{ n: 0 }])

    const trail = await publisher.trail(site, 'SL-01/deflection-ratio', whole + hour)
    if (!trail.ok) throw new Error('no trail')
    expect(trail.value.value).toBeCloseTo(-0.0494897959, 9)
    expect(trail.value.sources).toHaveLength(8)
    expect(trail.value.cautions.join(' ')).toContain('Guidance, no verdict')
    const broken = await publisher.trail(site, 'SL-01/tilt', whole + 8 * 24 * hour)
    if (!broken.ok) throw new Error('no trail')
    expect(broken.value.value).toBeNull()
    expect(broken.value.cautions.join(' ')).toContain('SP-35 has no survey in the 0.25 days')
  })

  it('tells the state of every series without reading a slice', async () => {
    const document = await publisher.stateDocument(site)
    const state = JSON.parse(document?.json ?? '{}')
    const series = await numberOf('PZ-01A/temperature')
    const [one] = state.states.filter((candidate: { series: number }) => candidate.series === series)
    expect(one).toMatchObject({ atEpochMs: start + 8 * hour, late: true, level: null })
    const never = await numberOf('PZ-06C/pore-pressure')
    const [missing] = state.states.filter((candidate: { series: number }) => candidate.series === never)
    expect(missing).toMatchObject({ value: null, atEpochMs: null, late: true, level: null })
  })

  it('leads a value back to the readings it was made from', async () => {
    const trail = await publisher.trail(site, 'PZ-01A/pore-pressure', start + 2 * hour)
    if (!trail.ok) throw new Error('no trail')
    expect(trail.value.sources.map((source) => source.role)).toEqual(['reading', 'temperature', 'barometer'])
    expect(trail.value.sources[2]?.atEpochMs).toBe(start + 1.5 * hour)
    expect(trail.value.sources[0]?.fileName).toBe('given.csv')
    expect(trail.value.derived.at(-1)?.kind).toBe('piezometric-level')
    const unknown = await publisher.trail(site, 'PZ-99/pore-pressure', start)
    expect(unknown.ok).toBe(false)
    const strut = await publisher.trail(site, 'ST-01/force', Date.UTC(2027, 5, 2))
    if (!strut.ok) throw new Error('no trail')
    expect(strut.value.sources).toHaveLength(3)
    expect(strut.value.cautions.join(' ')).toContain('ST-01-4')
  })

  it('is not put off by changes that come without a break', async () => {
    await take([{ sensor: 'PZ-01A/temperature', atEpochMs: start + 20 * hour, raw: 5100 }])
    const unbroken = setInterval(() => publisher.changed(site), 50)
    try {
      const standing = async () => (await publisher.publishing(site))?.publishedRevision
      await expect.poll(standing, { timeout: 30_000 }).toBe(await store.revision(site))
    } finally {
      clearInterval(unbroken)
    }
  })

  it('does nothing when nothing changed', async () => {
    expect((await publisher.publish(site)).files).toBe(0)
  })

  it('publishes anew the months that a new calibration reaches, and no others', async () => {
    const model = await store.getSite(site)
    const rows = model?.calibrations.filter(({ sensor }) => sensor === 'PZ-01A/temperature') ?? []
    const last = rows.at(-1) as NonNullable<(typeof rows)[0]>
    const steps = model?.calibrationSteps.filter(({ calibration }) => calibration === last.id) ?? []
    const again = (version: number, validFrom: number) => ({
      calibrations: [{ ...last, id: `CC-again/${version}`, version, validFrom }],
      calibrationSteps: steps.map((step) => ({ ...step, calibration: `CC-again/${version}` })),
    })
    const signature = { author: 'A. Tester', reason: 'test', atEpochMs: 0 }
    // Not the first hours of the month: the last readings of March are checked against them.
    const april = Date.UTC(2027, 3, 2)
    const urls = async () =>
      Object.fromEntries(
        (await publisher.sliceList(site))?.slices.map(({ month, resolution, url }) => [
          `${resolution} ${month}`,
          url,
        ]) ?? [],
      )
    await take([{ sensor: 'PZ-01A/temperature', atEpochMs: april + 12 * hour, raw: 5200 }])
    await publisher.publish(site)
    const before = await urls()
    // The same chain as a new version changes no value, but which calibration a value was made with.
    await store.addRows(site, again(2, april), signature)
    expect((await publisher.publishing(site))?.behind).toBe(true)
    const seen: string[] = []
    await publisher.publish(site, (month) => seen.push(month))
    expect(seen.filter((month) => month < '2027-04')).toEqual([])
    expect(seen).toContain('2027-04')
    expect(await publisher.publishing(site)).toMatchObject({ running: null, behind: false })
    const other = { ...again(3, april), calibrationSteps: [] as typeof steps }
    other.calibrationSteps = steps.map((step) => ({
      ...step,
      calibration: 'CC-again/3',
      parameters: (step.parameters ?? '').replace(/a=[^;]*/, 'a=0.0012'),
    }))
    await store.addRows(site, other, signature)
    await publisher.publish(site)
    const after = await urls()
    expect(after['raw 2027-03']).toBe(before['raw 2027-03'])
    expect(after['raw 2027-04']).not.toBe(before['raw 2027-04'])
  })
})

const none = { temperatureDegC: null, barometerKpa: null }
const ageOf = (steps: readonly { kind: string; parameters: Readonly<Record<string, unknown>> }[]) =>
  steps.find((step) => step.kind === 'barometric')?.parameters.maximumAgeMinutes

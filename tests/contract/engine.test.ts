import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Engine } from '../../web/engine/engine.ts'
import { openEngine } from '../../web/engine/open-engine.ts'
import type { Query } from '../../web/engine/query.ts'
import { QueryFailed } from '../../web/engine/query-failed.ts'
import { depthProfile } from '../../web/queries/depth-profile.ts'
import { levelAndAir } from '../../web/queries/level-and-air.ts'
import { markedDays } from '../../web/queries/marked-days.ts'
import { seriesStatesAt } from '../../web/queries/series-states-at.ts'
import { settlementAt } from '../../web/queries/settlement-at.ts'
import { timeHistory } from '../../web/queries/time-history.ts'
import { createSliceKeeper, type SliceKeeper } from '../../web/slices/slice-keeper.ts'
import { startBrowserSession, startNativeSession } from './engine-sessions.ts'
import { type MadeReading, type MadeSlices, makeSlices, readingsSql } from './engine-slices.ts'

const at = (text: string) => Date.parse(`${text}Z`)

/** 1 hourly, 2 every quarter of an hour, 3 levelled weekly, 4 cut on the way, 5 without calibration at last, 7 for an hour. */
const readings: MadeReading[] = [
  ...Array.from({ length: 24 * 40 }, (_, hour) => ({
    series: 1,
    atEpochMs: at('2027-03-10T00:00:00') + hour * 3_600_000,
    value: hour,
  })),
  ...Array.from({ length: 24 * 4 * 3 }, (_, quarter) => ({
    series: 2,
    atEpochMs: at('2027-04-01T00:00:00') + quarter * 900_000,
    value: quarter,
  })),
  { series: 3, atEpochMs: at('2027-03-17T10:20:00'), value: -1 },
  { series: 3, atEpochMs: at('2027-03-24T10:20:00'), value: -2.5 },
  { series: 3, atEpochMs: at('2027-04-07T10:20:00'), value: -4 },
  { series: 4, atEpochMs: at('2027-03-12T04:00:00'), value: 99 },
  { series: 5, atEpochMs: at('2027-04-01T01:00:00'), value: 5 },
  { series: 5, atEpochMs: at('2027-04-01T02:00:00'), value: null, quality: 16 },
  {
    series: 6,
    atEpochMs: at('2027-04-01T02:00:00'),
    value: 7.25,
    quality: 8,
    flags: 16,
    receivedAfterSeconds: 1_296_000,
  },
  ...Array.from({ length: 12 }, (_, quarter) => ({
    series: 7,
    atEpochMs: at('2027-04-03T09:00:00') + quarter * 900_000,
    value: quarter < 4 || quarter > 7 ? quarter : null,
  })),
]

describe.each([
  ['server engine', startNativeSession],
  ['browser engine', startBrowserSession],
])('%s', (_name, startSession) => {
  let engine: Engine
  let made: MadeSlices
  let keeper: SliceKeeper

  beforeAll(async () => {
    made = await makeSlices(readingsSql(readings))
    engine = openEngine({ startSession })
    keeper = createSliceKeeper(engine, { site: 's', revision: 1, slices: [...made.slices] }, made.bytesOf)
  })
  afterAll(async () => {
    await engine.close()
    await made.remove()
  })

  const ask = async (query: Query) => (await keeper.ask(query)).columns
  const statesAt = async (instant: string, refineSeries: number[] = []) => {
    const answer = await ask(seriesStatesAt({ atEpochMs: at(instant), refineSeries }))
    return Object.fromEntries(
      Array.from(answer.number('series'), (series, row) => [
        series,
        [
          answer.number('value')[row],
          new Date(answer.number('last_at_ms')[row] ?? 0).toISOString().slice(0, 16),
        ],
      ]),
    )
  }

  test('states at an instant are the last values at or before it, however long ago', async () => {
    const states = await statesAt('2027-04-02T00:00:00')
    expect(states[1]).toEqual([23 * 24, '2027-04-02T00:00'])
    expect(states[3]).toEqual([-2.5, '2027-03-24T10:20'])
    expect(states[4]).toEqual([99, '2027-03-12T04:00'])
  })

  test('a reading taken at the very instant counts, one a second later does not', async () => {
    expect((await statesAt('2027-04-07T10:20:00'))[3]).toEqual([-4, '2027-04-07T10:20'])
    expect((await statesAt('2027-04-07T10:19:59'))[3]).toEqual([-2.5, '2027-03-24T10:20'])
  })

  test('an hour that straddles the clock tells nothing from after it', async () => {
    expect((await statesAt('2027-04-02T06:20:00'))[2]).toEqual([24 * 4 + 6 * 4 - 1, '2027-04-02T05:45'])
    expect((await statesAt('2027-04-02T06:20:00', [2]))[2]).toEqual([24 * 4 + 6 * 4 + 1, '2027-04-02T06:15'])
  })

  test('at a whole hour a reading of that very instant counts, and no later one of the hour that begins there', async () => {
    const [before, then] = [24 * 4 + 6 * 4 - 1, 24 * 4 + 6 * 4]
    expect((await statesAt('2027-04-02T06:00:00', [2]))[2]).toEqual([then, '2027-04-02T06:00'])
    expect((await statesAt('2027-04-02T05:59:59', [2]))[2]).toEqual([before, '2027-04-02T05:45'])
    // The first instant of a month lies in another slice than the hours before it.
    expect((await statesAt('2027-04-01T00:00:00', [2]))[2]).toEqual([0, '2027-04-01T00:00'])
    // By hours alone it is older; it is never one from after the clock.
    expect((await statesAt('2027-04-02T06:00:00'))[2]).toEqual([before, '2027-04-02T05:45'])
    const instants = { atEpochMs: at('2027-04-02T06:00:00'), series: [1, 2], refineSeries: [2] }
    const profile = await ask(depthProfile({ ...instants, atEpochMs: [instants.atEpochMs] }))
    expect([...profile.number('value')]).toEqual([23 * 24 + 6, then])
    const settled = await ask(settlementAt({ ...instants, sinceEpochMs: at('2027-04-02T05:00:00') }))
    expect([...settled.number('value')]).toEqual([23 * 24 + 6, then])
    expect([...settled.number('since_value')]).toEqual([23 * 24 + 5, then - 4])
  })

  test('where readings themselves cannot be had the hours answer, and the answer says so', async () => {
    const alone = openEngine({ startSession })
    const slices = made.slices.map((slice) =>
      slice.resolution === 'raw' ? { ...slice, url: `${slice.url}.gone` } : slice,
    )
    const other = createSliceKeeper(alone, { site: 's', revision: 1, slices }, made.bytesOf)
    const query = seriesStatesAt({ atEpochMs: at('2027-04-02T06:00:00'), refineSeries: [2] })
    const { columns, isCoarser } = await other.ask(query)
    expect(isCoarser).toBe(true)
    expect(columns.number('value')[[...columns.number('series')].indexOf(2)]).toBe(24 * 4 + 6 * 4 - 1)
    await alone.close()
    expect((await keeper.ask(query)).isCoarser).toBe(false)
  })

  test('a reading without a value does not count: the value before it grows old instead', async () => {
    expect((await statesAt('2027-04-02T00:00:00'))[5]).toEqual([5, '2027-04-01T01:00'])
    for (const refine of [[], [7]]) {
      for (const instant of ['2027-04-03T10:00:00', '2027-04-03T10:20:00', '2027-04-03T10:59:59'])
        expect((await statesAt(instant, refine))[7]).toEqual([3, '2027-04-03T09:45'])
    }
    expect((await statesAt('2027-04-03T11:00:00', [7]))[7]).toEqual([8, '2027-04-03T11:00'])
    const [atEpochMs, only] = [at('2027-04-03T10:00:00'), { series: [7], refineSeries: [7] }]
    const profile = await ask(depthProfile({ ...only, atEpochMs: [atEpochMs] }))
    expect([...profile.number('value')]).toEqual([3])
    const settled = await ask(settlementAt({ ...only, atEpochMs, sinceEpochMs: at('2027-04-03T09:00:00') }))
    expect([...settled.number('value'), ...settled.number('since_value')]).toEqual([3, 0])
  })

  test('before the first reading a series has no row', async () => {
    expect((await statesAt('2027-03-11T00:00:00'))[3]).toBeUndefined()
  })

  test('any instant: buckets agree with the readings themselves', async () => {
    for (let step = 0; step < 40; step++) {
      const instant = at('2027-03-10T00:00:00') + Math.floor(step * 91_733_217 * 0.37)
      const answer = await ask(seriesStatesAt({ atEpochMs: instant, refineSeries: [1, 2, 3, 4, 5, 6, 7] }))
      const expected = new Map<number, MadeReading>()
      for (const reading of readings)
        if (
          reading.value !== null &&
          reading.atEpochMs <= instant &&
          (expected.get(reading.series)?.atEpochMs ?? 0) < reading.atEpochMs
        )
          expected.set(reading.series, reading)
      const got = Array.from(answer.number('series'), (series, row) => [
        series,
        answer.number('last_at_ms')[row],
        answer.number('value')[row],
      ])
      const wanted = [...expected.values()]
        .sort((left, right) => left.series - right.series)
        .map((reading) => [reading.series, reading.atEpochMs, reading.value])
      expect(got).toEqual(wanted)
    }
  })

  test('a profile gives each instant its own values', async () => {
    const answer = await ask(
      depthProfile({ atEpochMs: [at('2027-03-18T00:00:00'), at('2027-04-08T00:00:00')], series: [1, 3] }),
    )
    expect([...answer.number('which')]).toEqual([0, 0, 1, 1])
    expect([...answer.number('value')]).toEqual([192, -1, 29 * 24, -4])
  })

  test('settlement since an instant carries both ends', async () => {
    const answer = await ask(
      settlementAt({
        atEpochMs: at('2027-04-08T00:00:00'),
        sinceEpochMs: at('2027-03-20T00:00:00'),
        series: [3, 6],
      }),
    )
    expect([...answer.number('value')]).toEqual([-4, 7.25])
    expect([...answer.number('since_value')]).toEqual([-1, Number.NaN])
  })

  test.each([
    ['raw' as const, 96],
    ['hour' as const, 24],
    ['day' as const, 1],
  ])('history at %s keeps lowest and highest', async (resolution, buckets) => {
    const from = at('2027-04-02T00:00:00')
    const answer = await ask(
      timeHistory({
        fromEpochMs: from,
        untilEpochMs: from + 86_400_000,
        widthPixels: 800,
        intervalMinutes: 15,
        series: [2],
        resolution,
      }),
    )
    const inside = Array.from(answer.number('at_ms'), (instant, row) => ({ instant, row })).filter(
      ({ instant }) => instant >= from && instant < from + 86_400_000,
    )
    expect(inside).toHaveLength(buckets)
    expect(Math.min(...inside.map(({ row }) => answer.number('low')[row] ?? 0))).toBe(96)
    expect(Math.max(...inside.map(({ row }) => answer.number('high')[row] ?? 0))).toBe(191)
    // Readings by the quarter of an hour: that at 23:45 is the last of its hour and of its day.
    const last = inside.at(-1)?.row ?? -1
    expect(answer.number('last_at_ms')[last]).toBe(at('2027-04-02T23:45:00'))
  })

  test('late receipt and marks of checks are visible at every resolution', async () => {
    for (const resolution of ['raw', 'hour', 'day'] as const) {
      const answer = await ask(
        timeHistory({
          fromEpochMs: at('2027-04-01T00:00:00'),
          untilEpochMs: at('2027-04-02T00:00:00'),
          widthPixels: 100,
          intervalMinutes: 60,
          series: [6],
          resolution,
        }),
      )
      expect([...answer.number('quality')]).toEqual([8])
      expect([...answer.number('flags')]).toEqual([16])
    }
  })

  test('days with marks are counted back from an instant', async () => {
    const answer = await ask(markedDays({ atEpochMs: at('2027-04-09T12:00:00'), series: 6 }))
    const counts = [...answer.number('within')].map((days, row) => [
      days,
      answer.number('read')[row],
      answer.number('marked')[row],
    ])
    expect(counts.toSorted()).toEqual([
      [30, 1, 1],
      [7, 0, 0],
    ])
    const unmarked = await ask(markedDays({ atEpochMs: at('2027-04-09T12:00:00'), series: 3 }))
    expect([...unmarked.number('read')].toSorted()).toEqual([1, 3])
    expect(Math.max(...unmarked.number('marked'))).toBe(0)
    expect(Math.max(...answer.number('flags'))).toBe(16)
  })

  test('hours of a level and of its barometer stand at the middle of their readings', async () => {
    const answer = await ask(
      levelAndAir({
        fromEpochMs: at('2027-04-01T01:00:00'),
        untilEpochMs: at('2027-04-01T03:00:00'),
        series: [
          { series: 1, intervalMinutes: 60 },
          { series: 2, intervalMinutes: 15 },
          { series: 5, intervalMinutes: 60 },
        ],
      }),
    )
    const rows = Array.from(answer.number('series'), (series, row) => [
      series,
      new Date(answer.number('at_ms')[row] ?? 0).toISOString().slice(11, 19),
      answer.number('value')[row],
      answer.number('n')[row],
    ])
    const hour = 22 * 24
    expect(rows).toEqual([
      [1, '01:00:00', hour + 1, 1],
      [1, '02:00:00', hour + 2, 1],
      [2, '01:22:30', 5.5, 4],
      [2, '02:22:30', 9.5, 4],
      [5, '01:00:00', 5, 1],
      [5, '02:30:00', Number.NaN, 0],
    ])
    expect(answer.number('quality')[5]).toBe(16)
    expect(answer.number('flags')[0]).toBe(0)
  })

  test('a revision replaces the month: old values go, their slice is detached', async () => {
    const better = await makeSlices(
      readingsSql(readings.map((one) => (one.series === 3 ? { ...one, value: -40 } : one))),
    )
    const own = openEngine({ startSession })
    const listed = createSliceKeeper(own, { site: 's', revision: 1, slices: [...made.slices] }, (slice) =>
      made.slices.includes(slice) ? made.bytesOf(slice) : better.bytesOf(slice),
    )
    const question = settlementAt({ atEpochMs: at('2027-04-08T00:00:00'), series: [3] })
    expect([...(await listed.ask(question)).columns.number('value')]).toEqual([-4])
    listed.replaceList({
      site: 's',
      revision: 2,
      slices: [
        ...made.slices.filter((slice) => slice.month !== '2027-04'),
        ...better.slices.filter((slice) => slice.month === '2027-04'),
      ],
    })
    expect([...(await listed.ask(question)).columns.number('value')]).toEqual([-40])
    const databases = (await own.run('select database_name from duckdb_databases()')).text('database_name')
    expect(databases.filter((name) => name?.startsWith('hour_2027_04'))).toHaveLength(1)
    await own.close()
    await better.remove()
  })

  test('a warmed month is not laid again when the clock runs into it', async () => {
    const own = openEngine({ startSession })
    const warmed = createSliceKeeper(own, { site: 's', revision: 1, slices: [...made.slices] }, made.bytesOf)
    await warmed.warmByTime(at('2027-03-20T00:00:00'))
    const laid = await own.run("select table_name from duckdb_tables() where table_name like 'last_hour%'")
    expect(laid.rows).toBe(2)
    const stop = AbortSignal.abort()
    await expect(warmed.warmByTime(0, stop)).resolves.toBeUndefined()
    await own.close()
  })

  test('SQL that fails says so with the SQL and the cause', async () => {
    const failure = await engine.run('select nothing_here').catch((cause: unknown) => cause)
    expect(failure).toBeInstanceOf(QueryFailed)
    expect((failure as QueryFailed).sql).toBe('select nothing_here')
    expect((failure as QueryFailed).cause).toBeInstanceOf(Error)
  })

  test('after a restart the same question gives the same answer', async () => {
    const question = seriesStatesAt({ atEpochMs: at('2027-04-02T00:00:00') })
    const before = (await keeper.ask(question)).columns
    await engine.restart('a test asked for it')
    const after = (await keeper.ask(question)).columns
    expect([...after.number('value')]).toEqual([...before.number('value')])
    expect([...after.number('last_at_ms')]).toEqual([...before.number('last_at_ms')])
  })
})

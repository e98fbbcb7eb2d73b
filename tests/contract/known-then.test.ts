import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Series } from '#contract/site-document.ts'
import { quality } from '#domain/reduction/quality.ts'
import { type KnownThen, knownThen } from '../../web/derived/known-then.ts'
import type { Engine } from '../../web/engine/engine.ts'
import { openEngine } from '../../web/engine/open-engine.ts'
import { createSliceKeeper, type SliceKeeper } from '../../web/slices/slice-keeper.ts'
import { startBrowserSession, startNativeSession } from './engine-sessions.ts'
import { type MadeReading, type MadeSlices, makeSlices, readingsSql } from './engine-slices.ts'

const minuteMs = 60_000
const dayMs = 1440 * minuteMs
const beginEpochMs = Date.parse('2027-03-14T00:00:00Z')
const spanMs = 26 * dayMs
const lateAfterMinutes = 180

const seriesOf = (series: number, intervalMinutes: number): Series =>
  ({ id: `S-${series}/tilt`, series, intervalMinutes, lateAfterMinutes }) as Series
const series = [seriesOf(1, 60), seriesOf(2, 15), seriesOf(3, 60), seriesOf(4, 720)]

/** Seconds to receipt of a reading: at once, by a fast clock, on its way, or in a file of that day's end or of many days later. */
const delay = fc.oneof(
  { weight: 5, arbitrary: fc.integer({ min: 0, max: 900 }) },
  { weight: 1, arbitrary: fc.integer({ min: -4000, max: -1 }) },
  { weight: 2, arbitrary: fc.integer({ min: 901, max: 3 * 86_400 }) },
  { weight: 1, arbitrary: fc.integer({ min: 86_400, max: 40 * 86_400 }) },
)

/** One run of readings a series, of stretches that share a way of delivery; the same at every run of the tests. */
function madeReadings(): MadeReading[] {
  const random = fc.sample(fc.tuple(delay, fc.integer({ min: 0, max: 14 }), fc.nat(99)), {
    numRuns: 5000,
    seed: 20270810,
  })
  let drawn = 0
  return series.flatMap(({ series: number, intervalMinutes }) => {
    let shared = 0
    const made: MadeReading[] = []
    for (let at = beginEpochMs; at < beginEpochMs + spanMs; at += intervalMinutes * minuteMs) {
      const [after, shift, chance] = random[drawn++ % random.length] as [number, number, number]
      if (chance < 8) shared = after
      if (chance > 96) continue
      const receivedAfterSeconds = chance % 10 === 0 ? after : shared
      made.push({
        series: number,
        atEpochMs: at + shift * minuteMs,
        value: made.length,
        quality: receivedAfterSeconds > lateAfterMinutes * 60 ? quality.receivedLate : 0,
        receivedAfterSeconds,
      })
    }
    return made
  })
}

/** Told from the list of readings alone. */
function direct(readings: readonly MadeReading[], atEpochMs: number) {
  const receipt = ({ atEpochMs: at, receivedAfterSeconds: after = 0 }: MadeReading) =>
    at + 1000 * (after >= 0 && after <= 900 ? 0 : after)
  const newest = (of: readonly MadeReading[]) => of.toSorted((a, b) => a.atEpochMs - b.atEpochMs).at(-1)
  return series.map(({ series: number }) => {
    const taken = readings.filter((one) => one.series === number && one.atEpochMs <= atEpochMs)
    const last = newest(taken)
    return {
      series: number,
      known: newest(taken.filter((one) => one.atEpochMs <= atEpochMs - 900_000 && receipt(one) <= atEpochMs)),
      later: last && receipt(last) > atEpochMs ? receipt(last) : null,
    }
  })
}

describe.each([
  ['server engine', startNativeSession],
  ['browser engine', startBrowserSession],
])('%s', (_name, startSession) => {
  const readings = madeReadings()
  let engine: Engine
  let made: MadeSlices
  let keeper: SliceKeeper
  beforeAll(async () => {
    // As slices have it: receipt within the quarter of an hour is not kept.
    made = await makeSlices(`select * replace (
      case when received_after_s between 0 and 900 then null else received_after_s end as received_after_s)
      from (${readingsSql(readings)})`)
    engine = openEngine({ startSession })
    keeper = createSliceKeeper(engine, { site: 's', revision: 1, slices: [...made.slices] }, made.bytesOf)
  })
  afterAll(async () => {
    await engine.close()
    await made.remove()
  })
  const at = (atEpochMs: number, of: readonly Series[] = series): Promise<KnownThen> =>
    knownThen({ atEpochMs, series: of, levels: [] }, async (query) => (await keeper.ask(query)).columns)

  test('at any instant what had been received is what the readings themselves say', async () => {
    const told = { known: 0, late: 0, later: 0 }
    await fc.assert(
      fc.asyncProperty(fc.integer({ min: 0, max: (spanMs + 45 * dayMs) / 1000 }), async (seconds) => {
        const atEpochMs = beginEpochMs + seconds * 1000
        const { states, later } = await at(atEpochMs)
        for (const { series: number, known, later: arrival } of direct(readings, atEpochMs)) {
          const state = states.get(number)
          expect([state?.atEpochMs, state?.value]).toEqual([known?.atEpochMs ?? null, known?.value ?? null])
          expect(later.get(number)?.receivedAtEpochMs ?? null).toBe(arrival)
          const age = known === undefined ? Number.POSITIVE_INFINITY : atEpochMs - known.atEpochMs
          expect(state?.late).toBe(age > lateAfterMinutes * minuteMs)
          told.known += known ? 1 : 0
          told.late += state?.late ? 1 : 0
          told.later += arrival === null ? 0 : 1
        }
      }),
      { numRuns: 80, seed: 5 },
    )
    // Each of the three was met, or nothing was shown by it.
    expect(Math.min(told.known, told.late, told.later)).toBeGreaterThan(10)
  })

  test('what was known a long time ago stands, and what had not come by then does not, however old it is now', async () => {
    // Ten months on nothing of it is on its way any more.
    const { states, later } = await at(beginEpochMs + 300 * dayMs)
    expect(later.size).toBe(0)
    for (const { series: number } of series) {
      const last = readings.findLast((one) => one.series === number)
      expect(states.get(number)).toMatchObject({ atEpochMs: last?.atEpochMs, late: true })
    }
  })
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { compareSeries } from '#domain/review/compare-series.ts'
import { crossPlot } from '#domain/review/cross-plot.ts'
import { pairMeans, pairNearest } from '#domain/review/pair-readings.ts'
import { fromEpochMs, hourMs, makeWorld } from './made-world.ts'

const dayMs = 24 * hourMs
const readings = fc
  .uniqueArray(fc.integer({ min: 0, max: 400 }), { maxLength: 40 })
  .map((hours) => hours.toSorted((a, b) => a - b))
  .map((hours) => ({ atEpochMs: hours.map((h) => h * hourMs), values: hours.map((h) => (h * 7) % 31) }))

describe('readings are paired', () => {
  test('so that swapping the axes swaps the plot', () => {
    fc.assert(
      fc.property(readings, readings, fc.integer({ min: -9, max: 9 }), (x, y, lag) => {
        const apart = { mostApartMs: 5 * hourMs, lagMs: lag * hourMs }
        const one = pairNearest(x, y, apart)
        const other = pairNearest(y, x, { ...apart, lagMs: -apart.lagMs })
        expect(other.pairs.map(({ x, y }) => [y, x])).toEqual(one.pairs.map(({ x, y }) => [x, y]))
        expect([other.leftOutY, other.leftOutX]).toEqual([one.leftOutX, one.leftOutY])
        // None is used twice.
        expect(one.pairs.length + one.leftOutX).toBe(x.values.length)
        expect(one.leftOutX).toBeGreaterThanOrEqual(0)
        expect(one.leftOutY).toBeGreaterThanOrEqual(0)
      }),
      { seed: 3, numRuns: 200 },
    )
  })

  test('no farther apart than stated, and with the lag asked for', () => {
    const x = { atEpochMs: [0, dayMs, 2 * dayMs], values: [1, 2, 3] }
    const y = { atEpochMs: [hourMs, dayMs + 7 * hourMs], values: [10, 20] }
    expect(pairNearest(x, y, { mostApartMs: 2 * hourMs, lagMs: 0 })).toEqual({
      pairs: [{ atEpochMs: hourMs / 2, x: 1, y: 10 }],
      leftOutX: 2,
      leftOutY: 1,
    })
    const late = pairNearest(x, y, { mostApartMs: 2 * hourMs, lagMs: 7 * hourMs })
    expect(late.pairs.map(({ x, y }) => [x, y])).toEqual([[2, 20]])
  })

  test('by means of the same hour or day', () => {
    const x = { atEpochMs: [0, hourMs, dayMs], values: [1, 3, 9] }
    const y = { atEpochMs: [2 * hourMs, 2 * dayMs], values: [5, 7] }
    const over = { fromEpochMs: 0, untilEpochMs: 3 * dayMs, stepMs: dayMs, lagMs: 0 }
    expect(pairMeans(x, y, over)).toEqual({
      pairs: [{ atEpochMs: dayMs / 2, x: 2, y: 5 }],
      leftOutX: 1,
      leftOutY: 1,
    })
  })
})

test('the line is robust, its interval wider where pairs hang together, and none is drawn of four', () => {
  const pairs = Array.from({ length: 60 }, (_, i) => ({
    atEpochMs: i,
    x: i,
    y: 2 * i + (i === 20 ? 500 : Math.sin(i * 12.9898)),
  }))
  const { line, linePairs, middle } = crossPlot(pairs)
  expect(line?.slope).toBeCloseTo(2, 1)
  expect(linePairs).toBe(60)
  expect(middle?.x).toBe(29.5)
  expect(crossPlot(pairs.slice(0, 4)).line).toBeNull()
  const slow = pairs.map((one) => ({ ...one, y: 2 * one.x + 6 * Math.sin(one.x / 6) }))
  const rough = slow.toSorted((a, b) => Math.sin(a.x * 12.9898) - Math.sin(b.x * 12.9898))
  const width = (list: typeof pairs) => {
    const [low, high] = crossPlot(list).line?.slopeInterval ?? [0, 0]
    return high - low
  }
  expect(crossPlot(rough).line?.slope).toBeCloseTo(crossPlot(slow).line?.slope ?? 0, 9)
  expect(width(slow)).toBeGreaterThan(1.3 * width(rough))
  expect(crossPlot(Array.from({ length: 9 }, (_, i) => ({ atEpochMs: i, x: 1, y: i }))).line).toBeNull()
})

describe('series compared', () => {
  const world = makeWorld(23, 60)
  const over = { fromEpochMs, untilEpochMs: fromEpochMs + 60 * dayMs, differenceMs: dayMs }
  const pressure = (course: (h: number) => number, point: string) =>
    world.trace({ measure: 'pore-pressure', course, point })

  test('tell change and rate with intervals, and a planted lag of three hours', () => {
    const tide = (late: number) => (h: number) => 3 * Math.sin((2 * Math.PI * (h - late)) / 12.42) - h / 240
    const [own, late] = [pressure(tide(0), 'A'), pressure(tide(3), 'B')]
    const [first, second] = compareSeries(own, [own, late], over)
    expect(first?.correlation).toBeNull()
    expect(first?.change?.change).toBeCloseTo((-53 * 24) / 240, 0)
    expect(first?.perDay?.low).toBeLessThan(-0.1)
    expect(first?.perDay?.high).toBeGreaterThan(-0.1)
    expect(second?.lagHours?.lag).toBe(3)
    // A tide swings regularly: other lags, a swing apart, are not told from it.
    expect(second?.lagHours?.alike).toBeGreaterThan(2)
    expect(second?.rank?.correlation).toBeGreaterThan(-1)
  })

  test('are not changed by a constant, and without one to be held against stand by themselves', () => {
    const [own, other] = [pressure((h) => h / 100, 'A'), pressure((h) => Math.sin(h / 50), 'B')]
    const raised = { ...other, values: other.values.map((value) => value + 512) }
    const [, plain] = compareSeries(own, [own, other], over)
    const [, moved] = compareSeries(own, [own, raised], over)
    expect(moved?.correlation?.correlation).toBeCloseTo(plain?.correlation?.correlation ?? 0, 9)
    expect(moved?.change?.change).toBeCloseTo(plain?.change?.change ?? 0, 9)
    expect(compareSeries(null, [own], over)[0]).toMatchObject({ correlation: null, lagHours: null })
  })

  test('of too few readings tell nothing', () => {
    const short = { ...pressure(() => 1, 'S'), atEpochMs: [fromEpochMs], values: [1] }
    expect(compareSeries(short, [short, pressure(() => 2, 'B')], over)).toMatchObject([
      { change: null, perDay: null },
      { correlation: null, lagHours: null },
    ])
  })
})

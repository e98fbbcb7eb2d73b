import { describe, expect, test } from 'vitest'
import { assert } from '#domain/assert.ts'
import { hydrostaticKpa } from '#domain/reduction/hydrostatics.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { Standing } from '#domain/what-if/apply-sandbox.ts'
import { compareSeries } from '#domain/what-if/compare-series.ts'
import { atInstants } from '#domain/what-if/put-right.ts'
import { reduceRaw } from '#domain/what-if/reduce-raw.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { runSandbox } from '#domain/what-if/run-sandbox.ts'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { newChange } from '../../../web/panels/what-if/new-change.ts'
import { dayMs, hourly, hourMs, linkOf, standingOf } from './standing-of.ts'

const pressure = 'PZ-1/pore-pressure'
const air = 'BM-1/barometric-pressure'
const air2 = 'BM-2/barometric-pressure'
const warmth = 'PZ-1/temperature'
const days = 4
const until = days * dayMs

/** An unvented vibrating-wire tip with thermistor and two barometers, of which the second stops after a day. */
const tip = standingOf(
  [
    linkOf(
      pressure,
      1,
      [
        { kind: 'linear', parameters: { factor: -0.5, offset: 1000, unit: 'kPa' } },
        { kind: 'thermal', parameters: { factor: 0.2, reference: 10 } },
        { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 90 } },
      ],
      { temperatureSeries: warmth, barometerSeries: air },
    ),
    linkOf(warmth, 2, [{ kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'Cel' } }]),
    linkOf(air, 3, [{ kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'kPa' } }]),
    linkOf(air2, 4, [{ kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'kPa' } }]),
  ],
  [
    [1, hourly(24 * days, (hour) => 1800 - hour / 10)],
    [2, hourly(24 * days, (hour) => 10 + (hour % 5))],
    [3, hourly(24 * days, (hour) => 101 + (hour % 7) / 10)],
    [4, hourly(24, () => 102)],
  ],
  (channel) => (channel === 3 || channel === 4 ? 'LG-2' : 'LG-1'),
)

const official = reduceRaw(tip.recipe, tip.readings, 0, until)
const valuesOf = (standing: Standing, changes: readonly SandboxChange[], series = pressure) => {
  const run = runSandbox(standing, changes, 0, until)
  expect(run.faults).toEqual([])
  return run.values.get(series)
}
const seriesOf = (series: ReducedSeries | undefined): ReducedSeries => {
  assert(series, 'the tip has values')
  return series
}
const dated = { series: pressure, fromEpochMs: 2 * dayMs, untilEpochMs: null } as const
const apart = (changes: readonly SandboxChange[]) => {
  const made = compareSeries(seriesOf(official.get(pressure)), seriesOf(valuesOf(tip, changes)), 60)
  return { before: [...made.difference.slice(0, 48)], after: [...made.difference.slice(48)] }
}
const near = (found: readonly number[], of: (at: number) => number): void => {
  for (const [at, one] of found.entries()) expect(one).toBeCloseTo(of(at), 3)
}
const all = (value: number, count = 48) => Array.from({ length: count }, () => value)

describe('air pressure', () => {
  test('a barometer that reads 1 kPa too little moves an unvented tip by −1 kPa from then on', () => {
    const change = {
      ...dated,
      kind: 'barometer',
      barometer: air,
      share: 1,
      referenceKpa: null,
      offsetKpa: 1,
    } as const
    expect(apart([change])).toEqual({ before: all(0), after: all(-1) })
  })

  test('by the share that it feels; without a barometer the whole term goes', () => {
    const half = {
      ...dated,
      kind: 'barometer',
      barometer: air,
      share: 0.5,
      referenceKpa: null,
      offsetKpa: 0,
    } as const
    const none = { ...half, barometer: null } as const
    const rise = (hour: number) => (hour % 7) / 10
    near(apart([half]).after, (at) => rise(48 + at) / 2)
    near(apart([none]).after, (at) => rise(48 + at))
  })

  test('a barometer that has a gap leaves no value there, and says how many', () => {
    const change = {
      ...dated,
      fromEpochMs: 0,
      kind: 'barometer',
      barometer: air2,
      share: 1,
      referenceKpa: null,
      offsetKpa: 0,
    } as const
    const { values, cautions, faults } = runSandbox(tip, [change], 0, until)
    expect(faults).toEqual([])
    const own = values.get(pressure)
    // 90 minutes: the hour after its last reading still has it.
    expect([...(own?.value ?? [])].findIndex(Number.isNaN)).toBe(25)
    expect(own?.quality[25]).toBe(quality.barometerMissing)
    expect(cautions.map(({ column, message }) => [column, message])).toEqual([
      [
        '0.barometer',
        `71 of 96 readings of ${pressure} have no reading of ${air2} young enough before them: they have no value in the sandbox.`,
      ],
    ])
  })

  test('as it is begun keeps the barometer of its instant, until another is recorded', () => {
    const steps = tip.recipe.links.find(({ series }) => series === pressure)?.steps ?? []
    const held = (barometerSeries: string, fromEpochMs: number, untilEpochMs: number) =>
      linkOf(pressure, 1, steps, { temperatureSeries: warmth, barometerSeries, fromEpochMs, untilEpochMs })
    const end = Date.UTC(9999, 0, 1)
    const recipe = {
      ...tip.recipe,
      links: [
        ...tip.recipe.links.filter(({ series }) => series !== pressure),
        // A wiring that ends in the last day changes no barometer.
        held(air2, 3 * dayMs, 3.5 * dayMs),
        held(air2, 3.5 * dayMs, end),
        held(air2, 0, 2 * dayMs),
        held(air, 2 * dayMs, 3 * dayMs),
      ],
    }
    const begun = (fromEpochMs: number) =>
      newChange('barometer', { recipe, series: pressure, official: undefined, fromEpochMs })
    const [dated, last] = [begun(2.5 * dayMs), begun(3 * dayMs)]
    expect(dated).toMatchObject({ barometer: air, untilEpochMs: 3 * dayMs, share: 1, referenceKpa: 101 })
    expect(last).toMatchObject({ barometer: air2, untilEpochMs: null })
    const standing = { recipe, readings: tip.readings }
    const before = reduceRaw(recipe, tip.readings, 0, until).get(pressure)
    expect(valuesOf(standing, [dated])).toEqual(before)
    expect(valuesOf(standing, [dated, last])).toEqual(before)
  })
})

test('a thermal term is factor times the change since its reference', () => {
  const change = { ...dated, kind: 'thermal', factorPerDegC: 0, referenceDegC: null } as const
  near(apart([change]).after, (at) => -0.2 * ((48 + at) % 5))
})

test('a column of water in metres reads its hydrostatic pressure once its factor is 9.81 kN/m³', () => {
  const series = 'PZ-2/pore-pressure'
  const column = standingOf(
    [linkOf(series, 1, [{ kind: 'linear', parameters: { factor: 10, offset: 0, unit: 'kPa' } }])],
    [[1, hourly(96, (hour) => hour / 10)]],
  )
  const change = { ...dated, series, kind: 'coefficient', step: 1, name: 'factor', value: 9.81 } as const
  const made = valuesOf(column, [change], series)
  expect(made?.value[10]).toBe(10)
  for (const hour of [48, 60, 90]) expect(made?.value[hour]).toBeCloseTo(hydrostaticKpa(-hour / 10, 0), 3)
})

test('a drift grows evenly from the instant given', () => {
  const { after } = apart([{ ...dated, kind: 'offset', amount: 0, perDay: 0.24 }])
  near(after, (hour) => 0.01 * hour)
})

test('a coefficient is another number in its step', () => {
  const { before, after } = apart([{ ...dated, kind: 'coefficient', step: 1, name: 'factor', value: -0.6 }])
  expect(before).toEqual(all(0))
  near(after, (at) => -0.1 * (1800 - (48 + at) / 10))
})

describe('a zero reading', () => {
  const zeroes = (zero: Extract<SandboxChange, { kind: 'zero' }>['zero'], reads = 0) =>
    valuesOf(tip, [{ ...dated, fromEpochMs: 0, kind: 'zero', zero, reads }])

  test('of an instant reads what it is to read there, and every other as much apart as before', () => {
    const made = zeroes({ by: 'reading', atEpochMs: 10 * hourMs }, 50)
    expect(made?.value[10]).toBe(50)
    const [then, now] = [official.get(pressure)?.value[10] ?? 0, official.get(pressure)?.value[80] ?? 0]
    expect(made?.value[80]).toBeCloseTo(50 + now - then, 3)
  })

  test('of a stretch is the mean of its readings', () => {
    const made = zeroes({ by: 'mean', fromEpochMs: 0, untilEpochMs: dayMs })
    const first = [...(made?.value ?? [])].slice(0, 24)
    expect(first.reduce((sum, one) => sum + one, 0) / 24).toBeCloseTo(0, 3)
  })

  test('as a raw number stands for thermistor and barometer at their references', () => {
    // −0.5 · 1800 + 1000 = 100 kPa there.
    expect(zeroes({ by: 'raw', raw: 1800 })?.value[0]).toBeCloseTo(
      (official.get(pressure)?.value[0] ?? 0) - 100,
      9,
    )
  })

  test('equal to the old one changes nothing at all, though values are published rounded', () => {
    // Thirds have no end: what is published is never quite what was reduced.
    const { recipe, readings } = standingOf(
      [linkOf(pressure, 1, [{ kind: 'linear', parameters: { factor: 1 / 3, offset: 0, unit: 'kPa' } }])],
      [[1, hourly(96, (hour) => 100 + hour)]],
    )
    const standing = { recipe, readings }
    const before = reduceRaw(recipe, readings, 0, until).get(pressure)
    const own = seriesOf(before)
    const change = newChange('zero', { recipe, series: pressure, official: own, fromEpochMs: 0 })
    expect(change).toMatchObject({ kind: 'zero', reads: own.value[0], untilEpochMs: null })
    const run = runSandbox(standing, [change], 0, until)
    expect(compareSeries(own, seriesOf(run.values.get(pressure)), 60)).toMatchObject({
      changed: 0,
      mean: 0,
      low: { value: 0 },
      high: { value: 0 },
      standardDeviation: 0,
    })
    expect(run.recipe.links[0]?.steps).toEqual(recipe.links[0]?.steps)
    // One unit of its last decimal is another zero.
    const other = { ...change, reads: (own.value[0] ?? 0) + 10 ** -own.decimals } as SandboxChange
    const moved = runSandbox(standing, [other], 0, until).values.get(pressure)
    expect(compareSeries(own, seriesOf(moved), 60).changed).toBe(96)
  })

  test('as it is begun leaves the chains that follow alone, and begins at a reading that has a value', () => {
    const chain = (factor: number) => [
      { kind: 'linear', parameters: { factor, offset: 0, unit: 'kPa' } } as const,
    ]
    const { recipe, readings } = standingOf(
      [
        { ...linkOf(pressure, 1, chain(1 / 3)), untilEpochMs: 2 * dayMs },
        { ...linkOf(pressure, 1, chain(1 / 7)), fromEpochMs: 2 * dayMs },
      ],
      [[1, hourly(96, (hour) => (hour === 0 ? Number.NaN : 100 + hour))]],
    )
    const own = seriesOf(reduceRaw(recipe, readings, 0, until).get(pressure))
    const change = newChange('zero', { recipe, series: pressure, official: own, fromEpochMs: 0 })
    expect(change).toMatchObject({ zero: { atEpochMs: hourMs }, untilEpochMs: 2 * dayMs })
    const made = runSandbox({ recipe, readings }, [change], 0, until)
    expect(made.faults).toEqual([])
    expect(compareSeries(own, seriesOf(made.values.get(pressure)), 60).changed).toBe(0)
  })

  test('is taken up by the zero step of a chain, through what follows it', () => {
    const levelled = standingOf(
      [
        linkOf('SP-1/settlement', 1, [
          { kind: 'zero', parameters: { value: 5 } },
          { kind: 'linear', parameters: { factor: -1000, offset: 0, unit: 'mm' } },
        ]),
      ],
      [[1, hourly(96, (hour) => 5 - hour / 1000)]],
    )
    const change = {
      kind: 'zero',
      series: 'SP-1/settlement',
      fromEpochMs: 0,
      untilEpochMs: null,
      zero: { by: 'reading', atEpochMs: 7 * hourMs },
      reads: 2,
    } as const
    const run = runSandbox(levelled, [change], 0, until)
    expect(run.values.get('SP-1/settlement')?.value[7]).toBe(2)
    expect(run.values.get('SP-1/settlement')?.value[17]).toBe(12)
    expect(run.recipe.links[0]?.steps?.length).toBe(2)
    expect(run.recipe.links[0]?.steps?.[0]?.parameters.value).toBeCloseTo(4.995, 9)
  })
})

describe('wiring', () => {
  const two = standingOf(
    [
      linkOf('IP-1-1/inclination-a', 1, [
        { kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'deg' } },
      ]),
      linkOf('IP-1-1/inclination-b', 2, [
        { kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'deg' } },
      ]),
    ],
    [
      [1, hourly(96, (hour) => hour)],
      [2, hourly(96, (hour) => -hour)],
    ],
  )
  const change = { kind: 'wiring', fromEpochMs: 0, untilEpochMs: dayMs, exchanged: true } as const

  test('exchanged leads give each the series of the other until they were put right', () => {
    const asked = { ...change, series: 'IP-1-*/inclination-a', readsAs: 'IP-1-*/inclination-b' }
    const { values, faults } = runSandbox(two, [asked], 0, until)
    expect(faults).toEqual([])
    expect([...(values.get('IP-1-1/inclination-a')?.value ?? [])].slice(22, 26)).toEqual([-22, -23, 24, 25])
    expect([...(values.get('IP-1-1/inclination-b')?.value ?? [])].slice(22, 26)).toEqual([22, 23, -24, -25])
  })

  test('a series that is not read, or whose channel has no readings, is refused beside the field', () => {
    const asked = { ...change, series: 'IP-1-1/inclination-a', readsAs: 'IP-9/inclination-a' }
    expect(runSandbox(two, [asked], 0, until).faults[0]).toMatchObject({
      code: 'no-such-channel',
      column: '0.readsAs',
    })
    expect(runSandbox(two, [{ ...asked, readsAs: '' }], 0, until).faults[0]).toMatchObject({
      code: 'series-missing',
      column: '0.readsAs',
    })
    const silent = { recipe: two.recipe, readings: new Map([[1, hourly(96, (hour) => hour)]]) }
    const lent = { ...asked, readsAs: 'IP-1-1/inclination-b' }
    expect(runSandbox(silent, [lent], 0, until).faults[0]?.message).toContain('has no readings in this time')
  })
})

describe('clock', () => {
  const change = {
    series: pressure,
    fromEpochMs: 0,
    untilEpochMs: null,
    kind: 'clock',
    driftSecondsPerDay: 0,
  } as const

  test('an hour moves the stamps of the whole logger, and the barometer of another is looked up there', () => {
    const made = valuesOf(tip, [{ ...change, offsetSeconds: 3600 }])
    const shown = (hour: number) => {
      const [raw, warm, air] = [1800 - hour / 10, 10 + (hour % 5), 101 + ((hour + 1) % 7) / 10]
      return -0.5 * raw + 1000 + 0.2 * (warm - 10) - (air - 101)
    }
    expect(made?.atEpochMs[0]).toBe(hourMs)
    for (const hour of [0, 5, 17, 60]) expect(made?.value[hour]).toBeCloseTo(shown(hour), 3)
  })

  test('a drift moves each by its days', () => {
    const made = valuesOf(tip, [{ ...change, offsetSeconds: 0, driftSecondsPerDay: 60 }])
    expect(made?.atEpochMs[48]).toBe(2 * dayMs + 120_000)
  })

  test('a new one changes nothing yet: its numbers are those on record, as far as they have grown', () => {
    const settings = [{ fromEpochMs: 0, addedSeconds: 30, addedSecondsPerDay: 12 }]
    const recipe = { ...tip.recipe, clocks: [{ logger: 'LG-1', settings }] }
    const asked = newChange('clock', {
      recipe,
      series: pressure,
      official: undefined,
      fromEpochMs: 2 * dayMs,
    })
    expect(asked).toMatchObject({ offsetSeconds: 54, driftSecondsPerDay: 12 })
    const standing = { recipe, readings: atInstants(recipe, tip.readings) }
    const run = runSandbox(standing, [asked], 0, until)
    expect(run.recipe.clocks).toEqual(recipe.clocks)
    expect(run.values.get(pressure)).toEqual(runSandbox(standing, [], 0, until).values.get(pressure))
  })

  test('one a year behind is of the logger that reads the series once it is put right, and its end is told', () => {
    const yearMs = 365 * dayMs
    const links = tip.recipe.links.map((link) => ({ ...link, fromEpochMs: yearMs }))
    const late = { ...tip.recipe, links }
    const asked = { ...change, untilEpochMs: 30 * dayMs, offsetSeconds: yearMs / 1000 }
    const run = runSandbox({ ...tip, recipe: late }, [asked], yearMs, yearMs + until)
    expect(run.faults).toEqual([])
    expect(run.values.get(pressure)?.atEpochMs[0]).toBe(yearMs)
    const recorded = {
      ...tip.recipe,
      clocks: [
        { logger: 'LG-1', settings: [{ fromEpochMs: 2 * dayMs, addedSeconds: 5, addedSecondsPerDay: 0 }] },
      ],
    }
    const ended = runSandbox({ ...tip, recipe: recorded }, [{ ...change, offsetSeconds: 3 }], 0, until)
    expect(ended.cautions).toMatchObject([{ code: 'another-clock-begins', column: '0.until' }])
  })

  test('one that would reorder readings is refused in words, and nothing of it is done', () => {
    const asked = { ...change, fromEpochMs: dayMs, offsetSeconds: -7200 }
    const { faults, values } = runSandbox(tip, [asked], 0, until)
    expect(faults).toHaveLength(1)
    expect(faults[0]).toMatchObject({ code: 'readings-reordered', column: '0.offsetSeconds' })
    expect(values.get(pressure)).toEqual(official.get(pressure))
  })
})

test('a number that is empty or no number is refused beside its field; the other changes stand', () => {
  const bad = { ...dated, kind: 'coefficient', step: 1, name: 'factor', value: Number.NaN } as const
  const flat = { ...bad, value: 0 }
  const good = { ...dated, kind: 'offset', amount: 5, perDay: 0 } as const
  const { faults, values } = runSandbox(tip, [bad, flat, good], 0, until)
  expect(faults.map(({ column, code }) => [column, code])).toEqual([
    ['0.value', 'number-missing'],
    ['1.value', 'unfit-number'],
  ])
  expect(values.get(pressure)?.value[60]).toBeCloseTo((official.get(pressure)?.value[60] ?? 0) + 5, 9)
})

test('what was handed in stays as it is', () => {
  const before = structuredClone(tip)
  runSandbox(tip, [{ ...dated, kind: 'clock', offsetSeconds: 60, driftSecondsPerDay: 1 }], 0, until)
  expect(tip).toEqual(before)
})

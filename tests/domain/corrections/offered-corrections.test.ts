import { describe, expect, test } from 'vitest'
import { offeredCorrections } from '#domain/corrections/offered-corrections.ts'
import { atInstants } from '#domain/what-if/put-right.ts'
import { runSandbox } from '#domain/what-if/run-sandbox.ts'
import type { SandboxChange } from '#domain/what-if/sandbox-change.ts'
import { dayMs, hourly, linkOf, standingOf } from '../what-if/standing-of.ts'

const pressure = 'PZ-1/pore-pressure'
const other = 'PZ-2/pore-pressure'
const air = 'BM-1/barometric-pressure'
const steps = [
  { kind: 'linear', parameters: { factor: -0.5, offset: 1000, unit: 'kPa' } },
  { kind: 'barometric', parameters: { reference: 101, maximumAgeMinutes: 90 } },
] as const
const airSteps = [{ kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'kPa' } }] as const
const standing = standingOf(
  [
    // A calibration begins on the second day without cutting a lead.
    linkOf(pressure, 1, steps, { untilEpochMs: dayMs, barometerSeries: air }),
    linkOf(pressure, 1, steps, { fromEpochMs: dayMs, barometerSeries: air }),
    linkOf(other, 2, steps, { barometerSeries: air }),
    linkOf(air, 3, airSteps),
    linkOf('BM-2/barometric-pressure', 4, airSteps),
  ],
  [1, 2, 3, 4].map((channel) => [channel, hourly(96, () => 100 * channel)] as const),
)
const offer = (...changes: readonly SandboxChange[]) => {
  const { recipe, faults } = runSandbox(standing, changes, 0, 4 * dayMs)
  expect(faults).toEqual([])
  return offeredCorrections(standing.recipe, recipe, changes)
}
const dated = { series: pressure, fromEpochMs: dayMs / 2, untilEpochMs: null } as const
const barometer = { ...dated, kind: 'barometer', referenceKpa: null } as const

test('a sandbox that changes nothing offers nothing', () => {
  expect(offer()).toEqual({ changes: [], hindrances: [] })
})

test('a chain is offered from its instant on, once for each version that it replaces, numbers in full', () => {
  const third = 1 / 3
  const { changes, hindrances } = offer({
    ...dated,
    kind: 'coefficient',
    step: 1,
    name: 'factor',
    value: third,
  })
  expect(hindrances).toEqual([])
  expect(changes).toMatchObject([
    { kind: 'calibration', series: pressure, fromEpochMs: dayMs / 2, untilEpochMs: dayMs },
    {
      kind: 'calibration',
      series: pressure,
      fromEpochMs: dayMs,
      untilEpochMs: null,
      was: [{ kind: 'linear', parameters: 'factor=-0.5; offset=1000; unit=kPa' }, {}],
      steps: [{ kind: 'linear', parameters: `factor=${third}; offset=1000; unit=kPa` }, {}],
    },
  ])
})

test('exchanged leads are offered as two wirings, whatever calibration begins meanwhile', () => {
  const { changes, hindrances } = offer({ ...dated, kind: 'wiring', readsAs: other, exchanged: true })
  expect(hindrances).toEqual([])
  const [one, two] = [1, 2].map((channel) => ({ logger: 'LG-1', channel: `CH${channel}` }))
  const from = { kind: 'wiring', fromEpochMs: dayMs / 2, untilEpochMs: null }
  expect(changes).toEqual([
    { ...from, series: pressure, was: one, reads: two },
    { ...from, series: other, was: two, reads: one },
  ])
})

test('a share of the air is offered', () => {
  const { changes, hindrances } = offer({ ...barometer, barometer: air, share: 0.8, offsetKpa: 0 })
  expect([changes.length, hindrances]).toEqual([2, []])
})

test('another barometer is offered once, whatever calibration begins meanwhile, and its share beside it', () => {
  const second = 'BM-2/barometric-pressure'
  const { changes, hindrances } = offer({ ...barometer, barometer: second, share: 1, offsetKpa: 0 })
  expect(hindrances).toEqual([])
  expect(changes).toEqual([
    {
      kind: 'barometer',
      series: pressure,
      fromEpochMs: dayMs / 2,
      untilEpochMs: null,
      was: air,
      barometer: second,
    },
  ])
  const both = offer({ ...barometer, barometer: second, share: 0.8, offsetKpa: 0, untilEpochMs: 2 * dayMs })
  expect(
    both.changes.map(({ kind, fromEpochMs, untilEpochMs }) => [kind, fromEpochMs, untilEpochMs]),
  ).toEqual([
    ['calibration', dayMs / 2, dayMs],
    ['barometer', dayMs / 2, 2 * dayMs],
    ['calibration', dayMs, 2 * dayMs],
  ])
})

test('a zero by readings says which ones it was taken from, one by a number does not', () => {
  const zeroFromOf = (
    zero: Extract<SandboxChange, { kind: 'zero' }>['zero'],
    ...more: readonly SandboxChange[]
  ) =>
    offer({ ...dated, kind: 'zero', zero, reads: 12 }, ...more).changes.map((one) =>
      one.kind === 'calibration' ? one.zeroFrom : null,
    )
  const reading = { by: 'reading', atEpochMs: dayMs } as const
  const week = { by: 'mean', fromEpochMs: 0, untilEpochMs: dayMs } as const
  expect(zeroFromOf(reading)).toEqual([
    { zero: reading, reads: 12 },
    { zero: reading, reads: 12 },
  ])
  expect(zeroFromOf(week)[0]).toEqual({ zero: week, reads: 12 })
  expect(zeroFromOf({ by: 'raw', raw: 990 })).toEqual([undefined, undefined])
  // What is added afterwards moves the zero away from where the readings have it.
  expect(zeroFromOf(reading, { ...dated, kind: 'offset', amount: 1, perDay: 0 })).toEqual([
    undefined,
    undefined,
  ])
})

test('a clock is offered once for its logger, in the place of what is on record, and ends where another begins', () => {
  const clock = { ...dated, kind: 'clock', offsetSeconds: 60, driftSecondsPerDay: 2 } as const
  const asSent = { addedSeconds: 0, addedSecondsPerDay: 0 }
  const draft = {
    kind: 'clock',
    series: pressure,
    logger: 'LG-1',
    fromEpochMs: dayMs / 2,
    untilEpochMs: null,
    was: asSent,
    clock: { addedSeconds: 60, addedSecondsPerDay: 2 },
  }
  expect(offer(clock)).toEqual({ changes: [draft], hindrances: [] })
  expect(offer({ ...clock, untilEpochMs: dayMs }).changes).toEqual([{ ...draft, untilEpochMs: dayMs }])
  const recorded = [
    { fromEpochMs: 0, addedSeconds: 10, addedSecondsPerDay: 4 },
    { fromEpochMs: 3 * dayMs, addedSeconds: 30, addedSecondsPerDay: 0 },
  ]
  const recipe = { ...standing.recipe, clocks: [{ logger: 'LG-1', settings: recorded }] }
  const readings = atInstants(recipe, standing.readings)
  const tried = runSandbox({ recipe, readings }, [clock], 0, 4 * dayMs)
  expect(tried.faults).toEqual([])
  expect(offeredCorrections(recipe, tried.recipe, [clock]).changes).toEqual([
    { ...draft, untilEpochMs: 3 * dayMs, was: { addedSeconds: 12, addedSecondsPerDay: 4 } },
  ])
  // From the stamps as they were sent, not from those put right already: 60 s, and 2 s a day for half a day.
  expect(tried.values.get(pressure)?.atEpochMs[24]).toBe(dayMs + 61_000)
  // Back to the stamps as sent.
  const sent = { ...clock, fromEpochMs: 0, offsetSeconds: 0, driftSecondsPerDay: 0 }
  const back = runSandbox({ recipe, readings }, [sent], 0, 4 * dayMs)
  expect(back.values.get(pressure)?.atEpochMs[24]).toBe(dayMs)
  expect(offeredCorrections(recipe, back.recipe, [sent]).changes).toMatchObject([
    { fromEpochMs: 0, untilEpochMs: 3 * dayMs, clock: asSent },
  ])
})

describe('what the records keep without a date is told, and not offered', () => {
  test.each([
    [
      { ...barometer, barometer: air, share: 1, offsetKpa: 0.5 },
      /offer a version of the calibration of BM-1/,
    ],
    [{ ...dated, kind: 'offset', amount: 0, perDay: 0.1 }, /A drift of PZ-1/],
  ] as const)('%#', (change, words) => {
    const { hindrances } = offer(change)
    expect(hindrances).toHaveLength(1)
    expect(hindrances[0]).toMatch(words)
  })
})

test('leads that are taken over for longer than they are on record are not offered, and it is said from when', () => {
  const ended = standingOf(
    [linkOf(pressure, 1, steps), linkOf(other, 2, steps, { untilEpochMs: 2 * dayMs })],
    [1, 2].map((channel) => [channel, hourly(96, () => 100 * channel)] as const),
  )
  const change = { ...dated, kind: 'wiring', readsAs: other, exchanged: true } as const
  const hindrancesOf = (asked: SandboxChange) => {
    const { recipe } = runSandbox(ended, [asked], 0, 4 * dayMs)
    return offeredCorrections(ended.recipe, recipe, [asked]).hindrances
  }
  expect(hindrancesOf(change)).toEqual([
    expect.stringMatching(
      /^PZ-1\/pore-pressure would be read by no channel from 1970-01-03.* on, .*end the change where that begins/,
    ),
  ])
  expect(hindrancesOf({ ...change, untilEpochMs: 2 * dayMs })).toEqual([])
})

import { describe, expect, test } from 'vitest'
import { offeredCorrections } from '#domain/corrections/offered-corrections.ts'
import type { CalibrationStep } from '#domain/reduction/chain.ts'
import { reduceRaw } from '#domain/what-if/reduce-raw.ts'
import { runSandbox } from '#domain/what-if/run-sandbox.ts'
import type { SandboxChange, SandboxKind } from '#domain/what-if/sandbox-change.ts'
import { newChange } from '../../../web/panels/what-if/new-change.ts'
import { dayMs, hourly, linkOf, standingOf } from './standing-of.ts'

const pressure = 'PZ-1/pore-pressure'
const other = 'PZ-2/pore-pressure'
const air = 'BM-1/barometric-pressure'
const warmth = 'PZ-1/temperature'
const until = 4 * dayMs
const chain = (offset: number, degC: number, kPa: number): readonly CalibrationStep[] => [
  { kind: 'linear', parameters: { factor: -0.5, offset, unit: 'kPa' } },
  { kind: 'thermal', parameters: { factor: 0.2, reference: degC } },
  { kind: 'barometric', parameters: { reference: kPa, maximumAgeMinutes: 90, efficiency: 0.9 } },
]
const plain = [{ kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'kPa' } }] as const
const beside = { temperatureSeries: warmth, barometerSeries: air }
/** A tip that is calibrated anew, with another zero, as the third day begins, its lead moved a day before; another one calibrated once. */
const standing = standingOf(
  [
    linkOf(pressure, 1, chain(1000, 10, 101), { ...beside, untilEpochMs: dayMs }),
    linkOf(pressure, 2, chain(1000, 10, 101), { ...beside, fromEpochMs: dayMs, untilEpochMs: 2 * dayMs }),
    linkOf(pressure, 2, chain(1004, 14, 102), { ...beside, fromEpochMs: 2 * dayMs }),
    linkOf(other, 5, [], { ...beside, steps: null, untilEpochMs: dayMs }),
    linkOf(other, 5, chain(900, 10, 101), { ...beside, fromEpochMs: dayMs }),
    linkOf(warmth, 3, plain),
    linkOf(air, 4, plain),
  ],
  [
    [1, hourly(96, (hour) => 1800 - hour / 10)],
    [2, hourly(96, (hour) => 1790 - hour / 10)],
    [3, hourly(96, (hour) => 10 + (hour % 5))],
    [4, hourly(96, (hour) => 101 + (hour % 7) / 10)],
    [5, hourly(96, () => 1700)],
  ],
)
const { recipe } = standing
const official = reduceRaw(recipe, standing.readings, 0, until)
const begun = (kind: SandboxKind, fromEpochMs: number, series = pressure) =>
  newChange(kind, { recipe, series, official: official.get(series), fromEpochMs })
const run = (...changes: readonly SandboxChange[]) => {
  const made = runSandbox(standing, changes, 0, until)
  expect(made.faults).toEqual([])
  return made
}
const saidOf = (...changes: readonly SandboxChange[]) =>
  run(...changes).cautions.map(({ column, message }) => [column, message])

describe.each(['coefficient', 'barometer', 'thermal', 'zero'] as const)('a %s as it is begun', (kind) => {
  test('ends where another chain begins, and changes nothing yet', () => {
    const change = begun(kind, dayMs / 2)
    expect(change.untilEpochMs).toBe(2 * dayMs)
    expect(run(change).values.get(pressure)).toEqual(official.get(pressure))
    expect(saidOf(change)).toEqual([])
  })

  test('goes on for good where none follows', () => {
    expect(begun(kind, dayMs / 2, other).untilEpochMs).toBeNull()
    if (kind !== 'zero') expect(begun(kind, 3 * dayMs).untilEpochMs).toBeNull()
  })
})

const dated = { series: pressure, fromEpochMs: dayMs / 2, untilEpochMs: null } as const
const thermal = { ...dated, kind: 'thermal', factorPerDegC: 0.5, referenceDegC: 10 } as const
const barometer = {
  ...dated,
  kind: 'barometer',
  barometer: air,
  share: 0.5,
  referenceKpa: null,
  offsetKpa: 0,
} as const
const factor = { ...dated, kind: 'coefficient', step: 1, name: 'factor', value: -0.4 } as const
const zero = { ...dated, kind: 'zero', zero: { by: 'reading', atEpochMs: dayMs }, reads: 7 } as const

describe('a change that goes on into another chain', () => {
  test.each([thermal, barometer, factor, zero, { ...barometer, barometer: null }] as const)(
    'is told beside its end, and offered once for each: $kind',
    (change) => {
      expect(saidOf({ ...dated, kind: 'offset', amount: 1, perDay: 0 }, change)).toEqual([
        [
          '1.until',
          'Another chain of PZ-1/pore-pressure, with a zero of its own, begins at 1970-01-03T00:00:00Z: this goes into that one too, and is offered for each by itself. End it there if it is meant for the first alone.',
        ],
      ])
      expect(saidOf({ ...change, untilEpochMs: 2 * dayMs })).toEqual([])
      const { changes, hindrances } = offeredCorrections(recipe, run(change).recipe, [change])
      expect(hindrances).toEqual([])
      expect(changes.map((one) => [one.kind, one.fromEpochMs, one.untilEpochMs])).toEqual([
        ['calibration', dayMs / 2, dayMs],
        ['calibration', dayMs, 2 * dayMs],
        ['calibration', 2 * dayMs, null],
      ])
    },
  )

  test('is not told where that other chain says so already, or the chain is no other', () => {
    expect(saidOf({ ...barometer, share: 0.9 })).toEqual([])
    expect(saidOf({ ...thermal, factorPerDegC: 0.2, referenceDegC: null })).toEqual([])
    expect(saidOf({ ...factor, name: 'offset', value: 1004 })).toEqual([])
    expect(saidOf({ ...thermal, series: other })).toEqual([])
    expect(saidOf({ ...dated, kind: 'offset', amount: 1, perDay: 0 })).toEqual([])
  })

  test('is told with its first series where it is of several', () => {
    const several = standingOf(
      [
        ...recipe.links,
        linkOf('PZ-3/pore-pressure', 6, chain(900, 10, 101), { ...beside, untilEpochMs: dayMs }),
        linkOf('PZ-3/pore-pressure', 6, chain(901, 10, 101), { ...beside, fromEpochMs: dayMs }),
      ],
      [...standing.readings],
    )
    const { cautions } = runSandbox(several, [{ ...thermal, series: '*/pore-pressure' }], 0, until)
    expect(cautions).toMatchObject([{ code: 'another-chain-begins', value: pressure }])
    expect(cautions[0]?.message).toMatch(/ So it is with 1 more series\.$/)
  })
})

import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { derivedSql } from '#domain/reduction/derived-sql.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import { type ColumnLiquid, liquidDensity, liquidDensityPerKelvin } from '#domain/reduction/liquid-density.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { DerivedBundle, MemberValue } from '#domain/reduction/rules/derived-bundle.ts'
import { outputNumber } from '#domain/reduction/rules/slotted-sql.ts'
import { placeOfStud, studDerivatives } from '#domain/reduction/three-studs.ts'
import { waterDensity } from '#domain/reduction/water-density.ts'
import type { Instrument, MeasuringPoint } from '#domain/site/tables.ts'
import { handDifference } from './check-by-hand.ts'
import { literal, openRows } from './duckdb-rows.ts'
import { instrumentRow, pointRow, sensorRow } from './sample-bundles.ts'
import { readingOf } from './sample-readings.ts'

let database: Awaited<ReturnType<typeof openRows>>
beforeAll(async () => {
  database = await openRows()
})
afterAll(() => database.close())

type Changes<R> = Partial<R>
const studs = (
  changes: Changes<Instrument> = {},
  measures = ['stud-length-ab', 'stud-length-ac', 'stud-length-bc'] as const as readonly (
    | 'stud-length-ab'
    | 'stud-length-ac'
    | 'stud-length-bc'
  )[],
) => ({
  instruments: [
    {
      ...instrumentRow('CR', 'crack-meter'),
      studZeroAbMm: 100,
      studZeroAcMm: 89.44,
      studZeroBcMm: 100,
      ...changes,
    },
  ],
  points: [pointRow('CR', 'CR', 0)],
  sensors: measures.map((measure) => sensorRow('CR', measure, 'mm')),
  locations: [],
  strata: [],
})
const cells = (
  changes: Changes<Instrument> = {},
  point: Changes<MeasuringPoint> = {},
  measures = ['liquid-pressure', 'temperature', 'reservoir-drop'] as readonly (
    | 'liquid-pressure'
    | 'temperature'
    | 'reservoir-drop'
  )[],
) => ({
  instruments: [{ ...instrumentRow('SC', 'settlement-cell'), ...changes }],
  points: [{ ...pointRow('SC', 'SC', 0), zeroPressureKpa: 29.4, zeroTemperatureDegC: 10, ...point }],
  sensors: measures.map((measure) =>
    sensorRow(
      'SC',
      measure,
      { 'liquid-pressure': 'kPa', temperature: 'degC', 'reservoir-drop': 'mm' }[measure],
    ),
  ),
  locations: [],
  strata: [],
})
const bundleOf = (site: Parameters<typeof derivedBundles>[0]): DerivedBundle => {
  const made = derivedBundles(site)
  if (!made.ok || made.value[0] === undefined) throw new Error(JSON.stringify(made))
  return made.value[0]
}
const glycol = { liquidDensityKgPerM3: 1040, liquidExpansionPerKelvin: 0.0005 }

const membersOf = (bundle: DerivedBundle, values: readonly (number | null)[]) =>
  new Map<string, MemberValue>(
    bundle.slots.flatMap(({ series: [id = ''] }, slot) =>
      values[slot] == null ? [] : [[id, { value: values[slot], quality: 0 }] as const],
    ),
  )

async function inSql(
  bundle: DerivedBundle,
  instants: readonly (readonly (number | null)[])[],
  secondsApart = 1,
) {
  const rows = instants.flatMap((values, second) =>
    values.flatMap((value, slot) =>
      value === null
        ? []
        : [
            `(${slot}, make_timestamp(${second * secondsApart}000000::BIGINT), ${literal(value)}, 0::UTINYINT, 5)`,
          ],
    ),
  )
  await database.run(
    `create or replace temp table v as select * from (values ${rows.join(',')}) v(series, "at", value, quality, received_after_s)`,
  )
  const sql = derivedSql(bundle, {
    values: 'v',
    held: 'v',
    members: `(select * from (values ${bundle.slots.map(({ maximumAgeMinutes }, slot) => `(1, ${slot}, 0, ${slot}, ${maximumAgeMinutes === null ? 'null::DOUBLE' : maximumAgeMinutes * 60})`).join(',')}) m(bundle, slot, generation, series, maximum_age_s))`,
    outputs: `(select * from (values ${bundle.outputs.map(({ of }, at) => `(1, ${outputNumber(of)}, null::DOUBLE, ${at})`).join(',')}) o(bundle, output, constant, series))`,
    terms: '(select 0 as bundle)',
  })
  const made = await database.rows(
    `select series, epoch("at")::INTEGER as second, value, quality from (${sql}) order by all`,
  )
  return instants.map((_, second) => made.filter((row) => row.second === second * secondsApart))
}

const length = fc.double({ min: 40, max: 130, noNaN: true })
const pressure = fc.double({ min: 0, max: 60, noNaN: true })
const cases = [
  ['three studs', bundleOf(studs()), fc.tuple(length, length, length), 100],
  [
    'a cell under water',
    bundleOf(cells()),
    fc.tuple(
      pressure,
      fc.double({ min: -5, max: 45, noNaN: true }),
      fc.double({ min: -20, max: 20, noNaN: true }),
    ),
    6000,
  ],
  [
    'a cell under another liquid, without a reading of its reservoir',
    bundleOf(cells(glycol, {}, ['liquid-pressure', 'temperature'])),
    fc.tuple(pressure, fc.double({ min: -3000, max: 45, noNaN: true })),
    6000,
  ],
] as const

test.each(cases)('the query of %s gives what the function gives', async (_, bundle, values, scale) => {
  const counts = { known: 0, none: 0 }
  await fc.assert(
    fc.asyncProperty(
      fc.array(fc.tuple(values as fc.Arbitrary<number[]>, fc.option(fc.nat(2), { freq: 3 })), {
        minLength: 5,
        maxLength: 30,
      }),
      async (given) => {
        const instants = given.map(([own, missing]) =>
          own.map((one, slot) => (slot === missing ? null : one)),
        )
        const made = await inSql(bundle, instants)
        instants.forEach((own, at) => {
          const expected = deriveValues(bundle, membersOf(bundle, own))
          expected.forEach(({ value, quality: bits }, output) => {
            const row = made[at]?.find(({ series }) => series === output)
            expect(row?.quality).toBe(bits)
            if (value === null) {
              counts.none++
              expect(row?.value).toBeNull()
              return
            }
            counts.known++
            // Of a difference the digits are those of what is subtracted.
            expect(Math.abs((row?.value ?? Number.NaN) - value)).toBeLessThanOrEqual(
              1e-12 * Math.max(scale, Math.abs(value)),
            )
          })
        })
      },
    ),
    { seed: 61, numRuns: 60 },
  )
  expect(counts.known).toBeGreaterThan(50)
  expect(counts.none).toBeGreaterThan(20)
})

describe('three studs', () => {
  const bundle = bundleOf(studs())
  test('give opening and shear; lengths that make no triangle are marked', () => {
    const [opening, shear] = deriveValues(bundle, membersOf(bundle, [100, 90, 99.5]))
    const [zero, now] = [
      placeOfStud({ ab: 100, ac: 89.44, bc: 100 }),
      placeOfStud({ ab: 100, ac: 90, bc: 99.5 }),
    ]
    expect(opening?.value).toBeCloseTo((now?.y ?? 0) - (zero?.y ?? 0), 12)
    expect(shear?.value).toBeCloseTo((now?.x ?? 0) - (zero?.x ?? 0), 12)
    expect(deriveValues(bundle, membersOf(bundle, [100, 40, 50]))).toEqual([
      { value: null, quality: quality.notComputable },
      { value: null, quality: quality.notComputable },
    ])
    expect(bundle.outputs.map(({ id }) => id)).toEqual(['CR/opening', 'CR/shear'])
  })

  test('their derivatives are those of small changes', () => {
    const triangle = fc.record({
      ab: fc.double({ min: 80, max: 120, noNaN: true }),
      ac: fc.double({ min: 80, max: 120, noNaN: true }),
      bc: fc.double({ min: 80, max: 120, noNaN: true }),
    })
    fc.assert(
      fc.property(triangle, (lengths) => {
        const made = studDerivatives(lengths)
        for (const [at, side] of (['ab', 'ac', 'bc'] as const).entries()) {
          const moved = (by: number) => placeOfStud({ ...lengths, [side]: lengths[side] + by })
          const [up, down] = [moved(1e-4), moved(-1e-4)]
          expect(made.shear[at]).toBeCloseTo(((up?.x ?? 0) - (down?.x ?? 0)) / 2e-4, 5)
          expect(made.opening[at]).toBeCloseTo(((up?.y ?? 0) - (down?.y ?? 0)) / 2e-4, 5)
        }
      }),
      { seed: 62 },
    )
  })
})

describe('a settlement cell below its reservoir', () => {
  const bundle = bundleOf(cells())
  const settled = (...values: readonly (number | null)[]) =>
    deriveValues(bundle, membersOf(bundle, values))[0]

  test('a longer column is a settlement, one that is only warmer is not', () => {
    const atZero = (temperature: number) => (29.4 * waterDensity(temperature)) / waterDensity(10)
    expect(settled(29.4, 10, 0)?.value).toBeCloseTo(0, 9)
    expect(settled(atZero(25), 25, 0)?.value).toBeCloseTo(0, 9)
    // 0.1 kPa more at 999.70 kg/m³ is 10.2 mm of water.
    expect(settled(29.5, 10, 0)?.value).toBeCloseTo(100 / (0.00980665 * waterDensity(10)), 9)
  })

  test('a drop of the liquid in the reservoir is added: it had looked like a rise', () => {
    expect((settled(29.4, 10, 4)?.value ?? 0) - (settled(29.4, 10, 0)?.value ?? 0)).toBeCloseTo(4, 9)
  })

  test('without its temperature there is no value; frozen water has no density', () => {
    expect(settled(29.4, null, 0)).toEqual({ value: null, quality: quality.incomplete })
    expect(settled(29.4, -1, 0)).toEqual({ value: null, quality: quality.notComputable })
  })

  test.each([
    { kind: 'water' },
    { kind: 'expanding', densityKgPerM3: 1040, zeroTemperatureDegC: 12, expansionPerKelvin: 0.0005 },
  ] as readonly ColumnLiquid[])('change of density with temperature: $kind', (liquid) => {
    for (const t of [1, 4, 12, 25, 39])
      expect(liquidDensityPerKelvin(liquid, t)).toBeCloseTo(
        (liquidDensity(liquid, t + 0.01) - liquidDensity(liquid, t - 0.01)) / 0.02,
        5,
      )
  })
})

describe('a cell whose reservoir is surveyed', () => {
  const site = {
    ...cells({ surveyedPoint: 'SP', surveyMaximumAgeDays: 0.001 }),
    points: [...cells().points, pointRow('SP', 'SP', 0)],
    sensors: [...cells().sensors, sensorRow('SP', 'settlement', 'mm')],
  }
  const bundle = bundleOf(site)

  test('settles by both, and only against the reservoir while no survey stands', () => {
    const both = deriveValues(bundle, membersOf(bundle, [29.5, 10, 0, 3]))
    expect((both[1]?.value ?? 0) - (both[0]?.value ?? 0)).toBeCloseTo(3, 12)
    const alone = deriveValues(bundle, membersOf(bundle, [29.5, 10, 0, null]))
    expect(alone[0]).toEqual(both[0])
    expect(alone[1]).toEqual({ value: null, quality: quality.incomplete })
    expect(bundle.outputs.map(({ id }) => id)).toEqual(['SC/relative-settlement', 'SC/settlement'])
  })

  test('in the query too, with its last survey while it is young enough', async () => {
    const given = fc.tuple(
      pressure,
      fc.double({ min: -5, max: 45, noNaN: true }),
      fc.double({ min: -9, max: 9, noNaN: true }),
    )
    let surveyed = 0
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.tuple(fc.option(given), fc.option(fc.double({ min: -50, max: 50, noNaN: true }), { freq: 2 })),
          { minLength: 30, maxLength: 60 },
        ),
        async (instants) => {
          const rows = instants.map(([own, survey]) => [...(own ?? [null, null, null]), survey])
          const made = await inSql(bundle, rows, 40)
          rows.forEach((own, at) => {
            // 86.4 s: this instant and the two before it, 40 s apart.
            const survey =
              rows.slice(Math.max(0, at - 2), at + 1).findLast((one) => one[3] !== null)?.[3] ?? null
            const found = made[at] ?? []
            if (own.slice(0, 3).every((one) => one === null)) {
              expect(found).toEqual([])
              return
            }
            const expected = deriveValues(bundle, membersOf(bundle, [...own.slice(0, 3), survey]))
            expected.forEach(({ value, quality: bits }, output) => {
              const row = found.find(({ series }) => series === output)
              expect(row?.quality).toBe(bits)
              if (value === null) expect(row?.value).toBeNull()
              else expect(Math.abs((row?.value ?? Number.NaN) - value)).toBeLessThanOrEqual(6e-9)
              if (output === 1 && value !== null) surveyed++
            })
          })
        },
      ),
      { seed: 63, numRuns: 30 },
    )
    expect(surveyed).toBeGreaterThan(100)
  })

  test('its trail goes on to the reservoir', () => {
    const members = bundle.slots.map(({ series: [series = ''] }, slot) =>
      readingOf({ series, raw: [29.5, 10, 0, 3][slot] ?? 0, rawUnit: 'mm', unit: 'mm' }, [
        { kind: 'zero', parameters: { value: 0 } },
      ]),
    )
    const trail = derivedTrail(bundle, 'SC/settlement', members[0]?.atEpochMs ?? 0, members)
    expect(trail.derived).toHaveLength(3)
    expect(handDifference(trail.derived[2]?.sentence ?? '')).toBeLessThan(1e-5)
    expect(trail.derived[2]?.sentence).toContain('surveyed at SP')
    const [against, settled] = trail.derived
      .slice(1)
      .map(({ standardUncertainty }) => standardUncertainty ?? 0)
    expect(settled).toBeCloseTo(Math.hypot(against ?? 0, 0.3), 9)
  })
})

test.each([
  ['CR/opening', bundleOf(studs()), [100, 90, 99.5], 'mm'],
  ['CR/shear', bundleOf(studs()), [100, 90, 99.5], 'mm'],
  ['SC/relative-settlement', bundleOf(cells()), [29.9, 14, 2.5], 'mm'],
] as const)('the trail of %s checks by hand and carries uncertainty', (id, bundle, values, unit) => {
  const members = bundle.slots.map(({ series: [series = ''] }, slot) =>
    readingOf({ series, raw: values[slot] ?? 0, rawUnit: unit, unit }, [
      { kind: 'zero', parameters: { value: 0 } },
    ]),
  )
  const trail = derivedTrail(bundle, id, members[0]?.atEpochMs ?? 0, members)
  expect(trail.derived.length).toBeGreaterThan(1)
  for (const { sentence } of trail.derived) expect(handDifference(sentence), sentence).toBeLessThan(1e-5)
  expect(trail.derived.at(-1)?.output).toBeCloseTo(trail.value ?? Number.NaN, 9)
  // By small changes of each member, each with the same standard uncertainty.
  const at = bundle.outputs.findIndex((one) => one.id === id)
  const own = members.map((_, slot) => {
    const moved = (by: number) =>
      deriveValues(
        bundle,
        membersOf(
          bundle,
          values.map((one, place) => (place === slot ? one + by : one)),
        ),
      )[at]?.value ?? 0
    return (0.3 * (moved(1e-4) - moved(-1e-4))) / 2e-4
  })
  expect(trail.standardUncertainty).toBeCloseTo(Math.hypot(...own), 4)
})

describe('is refused', () => {
  test.each([
    [
      'studs with a length missing',
      studs({}, ['stud-length-ab', 'stud-length-ac']),
      'three-lengths-expected',
    ],
    ['studs without zero', studs({ studZeroBcMm: null }), 'stud-zero-expected'],
    ['studs whose zero is no triangle', studs({ studZeroBcMm: 200 }), 'no-triangle'],
    ['a cell without temperature', cells({}, {}, ['liquid-pressure']), 'liquid-without-temperature'],
    ['a cell without zero', cells({}, { zeroPressureKpa: null }), 'liquid-zero-expected'],
    ['water that was frozen at zero', cells({}, { zeroTemperatureDegC: -5 }), 'liquid-zero-expected'],
    ['a density without expansion', cells({ liquidDensityKgPerM3: 1040 }), 'liquid-incomplete'],
  ])('%s', (_, site, code) => {
    const made = derivedBundles(site)
    expect(made.ok ? [] : made.issues.map((issue) => issue.code)).toEqual([code])
  })
})

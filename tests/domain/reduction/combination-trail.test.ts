import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { trailSchema } from '#contract/trail.ts'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { derivedSql } from '#domain/reduction/derived-sql.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import type { DerivedBundle } from '#domain/reduction/rules/derived-bundle.ts'
import { outputsFrom } from '#domain/reduction/rules/outputs-from.ts'
import { resultantUncertainty } from '#domain/reduction/rules/resultant.ts'
import { handDifference } from './check-by-hand.ts'
import { openRows } from './duckdb-rows.ts'
import { instrumentRow, pointRow, sensorRow } from './sample-bundles.ts'
import { readingOf } from './sample-readings.ts'

const bundleOf = (site: Parameters<typeof derivedBundles>[0]): DerivedBundle => {
  const made = derivedBundles(site)
  if (!made.ok || made.value[0] === undefined) throw new Error(JSON.stringify(made))
  return made.value[0]
}

const extensometer = bundleOf({
  instruments: [
    {
      ...instrumentRow('EX', 'extensometer', 'surveyed-head'),
      anchorPositive: 'together',
      surveyedPoint: 'SP',
      surveyMaximumAgeDays: 10,
    },
  ],
  points: [pointRow('EX-1', 'EX', 3), pointRow('EX-2', 'EX', 8), pointRow('SP', 'other', 0)],
  sensors: [
    sensorRow('EX-1', 'displacement', 'mm'),
    sensorRow('EX-2', 'displacement', 'mm'),
    sensorRow('SP', 'settlement', 'mm'),
  ],
  locations: [
    {
      id: 'EX-place',
      kind: 'hole',
      eastingMetres: 0,
      northingMetres: 0,
      collarLevelMetres: 0,
      azimuthDegrees: 0,
      dipDegrees: 90,
      lengthMetres: 20,
      surveyedAt: 0,
      surveyedBy: 'surveyor',
    },
  ],
  strata: [],
})

const day = 86_400_000
const member = (series: string, value: number, atEpochMs: number) =>
  readingOf({ series, raw: value + 10, rawUnit: 'mm', unit: 'mm', atEpochMs }, [
    { kind: 'zero', parameters: { value: 10 } },
  ])

describe('trail of a combination', () => {
  const anchors = [member('EX-1/displacement', -1.25, 100 * day), member('EX-2/displacement', -4, 100 * day)]
  const survey = member('SP/settlement', 17.5, 97.5 * day)

  test('writes every number out, with its uncertainty and how old the survey is', () => {
    const trail = derivedTrail(extensometer, 'EX-1/settlement', 100 * day, [...anchors, survey])
    expect(trail.value).toBe(18.75)
    const [line] = trail.derived
    expect(line?.sentence).toBe(
      'Settlement of EX-1 from the surveyed settlement of the head at SP: 17.5 − (−1.25) = 18.75 mm.',
    )
    expect(handDifference(line?.sentence ?? '')).toBeLessThan(1e-5)
    expect(trail.standardUncertainty).toBeCloseTo(Math.hypot(0.3, 0.3), 12)
    expect(trail.cautions).toEqual([
      'SP/settlement: surveyed 2.5 days before, the last survey until then; used up to 10 days.',
    ])
    expect(trailSchema.parse(trail)).toEqual(trail)
  })

  test('weights are written out too, and squared into the uncertainty', () => {
    const trail = derivedTrail(extensometer, 'EX-2/strain', 100 * day, [...anchors, survey])
    expect(trail.value).toBeCloseTo((4 - 1.25) / 5, 12)
    expect(handDifference(trail.derived[0]?.sentence ?? '')).toBeLessThan(1e-5)
    expect(trail.standardUncertainty).toBeCloseTo(Math.hypot(0.3, 0.3) / 5, 12)
  })

  test('without a survey there is no value, and that is said', () => {
    const trail = derivedTrail(extensometer, 'EX-1/settlement', 100 * day, anchors)
    expect([trail.value, trail.standardUncertainty, trail.derived]).toEqual([null, null, []])
    expect(trail.cautions).toContain(
      'SP has no survey in the 10 days before that instant, the greatest age stated for it.',
    )
  })
})

describe('resultant', () => {
  const bundle = bundleOf({
    instruments: [instrumentRow('CR', 'crack-meter')],
    points: [pointRow('CR', 'CR', 0)],
    sensors: (['opening', 'shear', 'step'] as const).map((measure) => sensorRow('CR', measure, 'mm')),
    locations: [],
    strata: [],
  })
  let database: Awaited<ReturnType<typeof openRows>>
  beforeAll(async () => {
    database = await openRows()
  })
  afterAll(() => database.close())

  test('the query gives what the function gives, with axes missing', async () => {
    const ids = bundle.slots.flatMap(({ series }) => series)
    const axis = fc.option(fc.double({ min: -50, max: 50, noNaN: true }), { nil: null, freq: 5 })
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.tuple(axis, axis, axis), { minLength: 5, maxLength: 20 }),
        async (given) => {
          const rows = given.flatMap((axes, second) =>
            axes.map(
              (value, slot) =>
                `(${slot}, make_timestamp(${second}000000::BIGINT), ${value === null ? 'null' : `'${value.toExponential()}'`}::DOUBLE, 0::UTINYINT, 5)`,
            ),
          )
          await database.run(
            `create or replace temp table v as select * from (values ${rows.join(',')}) v(series, "at", value, quality, received_after_s)`,
          )
          const made = await database.rows(`
          select epoch("at")::INTEGER as second, value, quality from (${derivedSql(bundle, {
            values: 'v',
            held: 'v',
            members:
              '(select 1 as bundle, unnest([0, 1, 2]) as slot, 0 as generation, unnest([0, 1, 2]) as series, null::DOUBLE as maximum_age_s)',
            outputs: '(select 1 as bundle, -1 as output, 9 as series)',
            terms: 'v',
          })}) order by second`)
          given.forEach((axes, second) => {
            const [expected] = deriveValues(
              bundle,
              new Map(axes.map((value, slot) => [ids[slot] ?? '', { value, quality: 0 }])),
            )
            expect(made[second]?.quality).toBe(expected?.quality)
            if (expected?.value == null) expect(made[second]?.value).toBeNull()
            else
              expect(Math.abs((made[second]?.value ?? Number.NaN) - expected.value)).toBeLessThanOrEqual(
                1e-12 * expected.value,
              )
          })
        },
      ),
      { seed: 41, numRuns: 20 },
    )
  })

  test('its trail gives the root, and its uncertainty is that of the axis it lies along', () => {
    const trail = derivedTrail(
      bundle,
      'CR/resultant',
      100 * day,
      [3, 0, -4].map((value, slot) => member(bundle.slots[slot]?.series[0] ?? '', value, 100 * day)),
    )
    expect(trail.value).toBe(5)
    expect(trail.derived[0]?.sentence).toContain('3² + 0² + (−4)² = 25; its root is 5 mm')
    expect(trail.standardUncertainty).toBeCloseTo(0.3, 12)
    expect(resultantUncertainty([3, 0], [0.1, 7])).toBeCloseTo(0.1, 12)
    expect(resultantUncertainty([0, 0], [0.1, 7])).toBe(7)
    expect(resultantUncertainty([3, 0], [0.1, null])).toBeNull()
  })
})

test('a checksum tells the mean and scatter of its whole traverse', () => {
  const faces = ['face-a0', 'face-a180'] as const
  const points = ['T0', 'T1', 'T2']
  const bundle = bundleOf({
    instruments: [instrumentRow('IN', 'traversed-inclinometer', 'toe')],
    points: points.map((id, at) => pointRow(id, 'IN', 1 + 2 * at)),
    sensors: points.flatMap((id) => faces.map((face) => sensorRow(id, face, 'mm'))),
    locations: [],
    strata: [],
  })
  const read = points.flatMap((id, at) => [
    member(`${id}/face-a0`, 10 + at, 100 * day),
    ...(at === 2 ? [] : [member(`${id}/face-a180`, -8, 100 * day)]),
  ])
  const trail = derivedTrail(bundle, 'T0/checksum-a', 100 * day, read)
  expect(trail.value).toBe(2)
  expect(trail.derived[0]?.sentence).toBe('Checksum of T0: 10 + (−8) = 2 mm.')
  expect(trail.cautions.at(-1)).toContain(
    'Over the 2 intervals read in this survey the checksum is 2.5 mm on average, with a standard deviation of 0.7071 mm',
  )
  expect(derivedTrail(bundle, 'T0/deviation-a', 100 * day, read).cautions.join(' ')).not.toContain('checksum')
})

test('a deflection tells the faults that its still intervals show, and does not take them off', () => {
  const faces = ['face-a0', 'face-a180'] as const
  const points = ['T0', 'T1', 'T2', 'T3', 'T4', 'T5']
  const zeros = [5, 9, 4, 7, 2, 6]
  const bundle = bundleOf({
    instruments: [{ ...instrumentRow('IN', 'traversed-inclinometer', 'toe'), stillBelowMetres: 4 }],
    points: points.map((id, at) => ({
      ...pointRow(id, 'IN', 1 + 2 * at),
      zeroDeviationAMm: zeros[at] ?? null,
    })),
    sensors: points.flatMap((id) => faces.map((face) => sensorRow(id, face, 'mm'))),
    locations: [],
    strata: [],
  })
  // The upper two move by 3 mm each; the second pass was read with a bias 0.5 mm greater.
  const read = points.flatMap((id, at) => {
    const deviation = (zeros[at] ?? 0) + (at < 2 ? 3 : 0)
    return [
      member(`${id}/face-a0`, deviation, 100 * day),
      member(`${id}/face-a180`, 0.5 - deviation, 100 * day),
    ]
  })
  const trail = derivedTrail(bundle, 'T0/deflection', 100 * day, read)
  expect(trail.value).toBeCloseTo(6 - 6 * 0.25, 9)
  expect(trail.cautions[0]).toContain(
    'Below 4 m, where the casing is taken to stand still, 4 intervals show a bias shift at each interval of −0.25 mm, standard error 0 mm; by itself it makes −1.5 mm over the whole casing.',
  )
  expect(trail.cautions[1]).toContain('a depth error of')
  expect(trail.cautions[1]).toContain('It is not taken off')
})

test('a sensor axis turned in its probe is told where the casing leans across, and only where that is known', () => {
  const faces = ['face-a0', 'face-a180'] as const
  const points = ['T0', 'T1', 'T2', 'T3', 'T4', 'T5']
  const across = [40, 52, 38, 61, 45, 57]
  const cautionsWith = (acrossKnown: boolean) => {
    const bundle = bundleOf({
      instruments: [{ ...instrumentRow('IN', 'traversed-inclinometer', 'toe'), stillBelowMetres: 4 }],
      points: points.map((id, at) => ({
        ...pointRow(id, 'IN', 1 + 2 * at),
        gaugeLengthMetres: 2,
        zeroDeviationAMm: 0,
        zeroDeviationBMm: acrossKnown ? (across[at] ?? null) : null,
      })),
      sensors: points.flatMap((id) => faces.map((face) => sensorRow(id, face, 'mm'))),
      locations: [],
      strata: [],
    })
    const turned = Math.sin((0.1 * Math.PI) / 180)
    const read = points.flatMap((id, at) => [
      member(`${id}/face-a0`, turned * (across[at] ?? 0), 100 * day),
      member(`${id}/face-a180`, -turned * (across[at] ?? 0), 100 * day),
    ])
    return derivedTrail(bundle, 'T0/deflection', 100 * day, read).cautions
  }
  expect(cautionsWith(true).join(' ')).toMatch(
    /4 intervals show a sensor axis turned in its probe by an angle of 0\.1°, standard error .*by itself it makes 0\.511 mm/,
  )
  expect(cautionsWith(false).join(' ')).not.toContain('turned in its probe')
})

test('the greatest deflection of a traverse is told with the sum that it is', () => {
  const points = ['T0', 'T1', 'T2']
  const bundle = bundleOf({
    instruments: [instrumentRow('IN', 'traversed-inclinometer', 'toe')],
    points: points.map((id, at) => ({ ...pointRow(id, 'IN', 1 + 2 * at), zeroDeviationAMm: 1 })),
    sensors: points.flatMap((id) =>
      ['face-a0', 'face-a180'].map((face) => sensorRow(id, face as 'face-a0', 'mm')),
    ),
    locations: [],
    strata: [],
  })
  const read = points.flatMap((id, at) => [
    member(`${id}/face-a0`, [-9, 3, 4][at] ?? 0, 100 * day),
    member(`${id}/face-a180`, [9, -3, -4][at] ?? 0, 100 * day),
  ])
  const trail = derivedTrail(bundle, 'IN/deflection', 100 * day, read)
  // Deviations −9, 3, 4 less 1 each: from the toe 3, 5, −5; of two equally great the positive.
  expect(trail.value).toBe(5)
  expect(trail.derived.map(({ kind }) => kind)).toEqual(['combination', 'greatest-deflection'])
  expect(trail.derived[0]?.sentence).toContain('Deflection of the top of T1 from the toe')
  expect(trail.derived[1]?.sentence).toBe('Greatest in magnitude of 3 along the string: 5 mm.')
  expect(trail.standardUncertainty).toBe(trail.derived[0]?.standardUncertainty)
})

test('a series goes only into the combinations that name it', () => {
  const from = (series: string) => outputsFrom(extensometer, new Set([series])).map(({ id }) => id)
  expect(from('EX-1/displacement')).toEqual(['EX-1/strain', 'EX-2/strain', 'EX-1/settlement'])
  expect(from('SP/settlement')).toEqual(['EX-1/settlement', 'EX-2/settlement'])
  expect(from('EX-9/displacement')).toEqual([])
})

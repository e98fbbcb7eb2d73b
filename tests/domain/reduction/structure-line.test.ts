import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { groupBy } from '#domain/group-by.ts'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { derivedSql } from '#domain/reduction/derived-sql.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import type { PlanSite } from '#domain/reduction/plans/plan-site.ts'
import { seriesUncertainty } from '#domain/reduction/published-uncertainty.ts'
import type { DerivedBundle, MemberValue } from '#domain/reduction/rules/derived-bundle.ts'
import { outputNumber } from '#domain/reduction/rules/slotted-sql.ts'
import type { Instrument } from '#domain/site/tables.ts'
import { literal, openRows } from './duckdb-rows.ts'
import { instrumentRow, pointRow, sensorRow } from './sample-bundles.ts'
import { readingOf } from './sample-readings.ts'

let database: Awaited<ReturnType<typeof openRows>>
beforeAll(async () => {
  database = await openRows()
})
afterAll(() => database.close())

const places = [0, 9, 21, 30, 44]
const names = places.map((_, at) => `SP-${at + 1}`)

/** A façade running east, with a point at each of `places`; metres beside it in `beside`. */
function facade(
  line: Partial<Instrument> = {},
  { beside = [] as readonly number[], order = names } = {},
): PlanSite {
  return {
    instruments: [
      { ...instrumentRow('SL-1', 'structure-line'), surveyMaximumAgeDays: 0.25, ...line },
      ...names.map((id) => instrumentRow(id, 'settlement-point')),
    ],
    points: [pointRow('SL-1', 'SL-1', 0), ...names.map((id) => pointRow(id, id, 0))],
    sensors: names.map((id) => sensorRow(id, 'settlement', 'mm')),
    locations: names.map((id, at) => ({
      id: `${id}-place`,
      kind: 'structure' as const,
      eastingMetres: 1000 + (places[at] ?? 0),
      northingMetres: 2000 + (beside[at] ?? 0),
      collarLevelMetres: 5,
      azimuthDegrees: 0,
      dipDegrees: 90,
      lengthMetres: 0,
      surveyedAt: 0,
      surveyedBy: 'surveyor',
    })),
    strata: [],
    structureLines: order.map((point, at) => ({ line: 'SL-1', order: at + 1, point })),
  }
}

function bundleOf(site: PlanSite): DerivedBundle {
  const made = derivedBundles(site)
  if (!made.ok || made.value[0] === undefined) throw new Error(JSON.stringify(made))
  return made.value[0]
}

const valuesOf = (settlements: readonly (number | null)[]) =>
  new Map<string, MemberValue>(
    settlements.flatMap((value, at) =>
      value === null ? [] : [[`${names[at]}/settlement`, { value, quality: 0 }] as const],
    ),
  )

describe('a line of settlement points', () => {
  const bundle = bundleOf(facade())
  const derive = (settlements: readonly (number | null)[]): Record<string, number | null> =>
    Object.fromEntries(
      deriveValues(bundle, valuesOf(settlements)).map(({ value }, at) => [
        bundle.outputs[at]?.id ?? '',
        value,
      ]),
    )

  test('gives its tilt, its bays and its deflection ratio, worked by hand', () => {
    // Tilt 4.4/44 = 0.1 mm/m; at 21 m 7.1 − 2.1 = 5 mm off the line, 5/44 mm/m.
    const made = derive([0, 2.9, 7.1, 5, 4.4])
    expect(made['SL-1/tilt']).toBeCloseTo(0.1, 12)
    expect(made['SL-1/deflection-ratio']).toBeCloseTo(5 / 44, 12)
    expect(made['SP-2/angular-distortion']).toBeCloseTo(2.9 / 9 - 0.1, 12)
    expect(made['SP-4/angular-distortion']).toBeCloseTo(-2.1 / 9 - 0.1, 12)
    expect(Object.keys(made)).toHaveLength(6)
  })

  test('sagging is positive, hogging negative', () => {
    expect(derive([0, 0, -6, 0, 0])['SL-1/deflection-ratio']).toBeCloseTo(-6 / 44, 12)
  })

  test('a rigid tilt distorts nothing', () => {
    fc.assert(
      fc.property(fc.double({ min: -5, max: 5, noNaN: true }), (tilt) => {
        const made = derive(places.map((place) => 3 + tilt * place))
        expect(made['SL-1/tilt']).toBeCloseTo(tilt, 9)
        for (const [id, value] of Object.entries(made))
          if (id !== 'SL-1/tilt') expect(Math.abs(value ?? 1)).toBeLessThan(1e-9)
      }),
      { seed: 41 },
    )
  })

  test('with a point missing there is no value of any of it', () => {
    expect(Object.values(derive([0, 1, null, 1, 0]))).toEqual([null, null, null, null, null, null])
  })
})

test('the query gives what the function gives, once the round is complete, and nothing before', async () => {
  const bundle = bundleOf(facade())
  const amount = fc.double({ min: -80, max: 80, noNaN: true })
  let complete = 0
  await fc.assert(
    fc.asyncProperty(
      fc.array(
        fc.tuple(
          fc.nat(4),
          fc.option(amount, { freq: 9 }),
          fc.constantFrom(120, 120, 120, 120, 120, 120, 30_000),
        ),
        {
          minLength: 20,
          maxLength: 60,
        },
      ),
      async (given) => {
        let second = 1000
        const reads = given.map(([slot, value, later]) => {
          second += later
          return { slot, value, second }
        })
        const rows = reads.map(
          ({ slot, value, second }) =>
            `(${slot}, make_timestamp(${second}000000::BIGINT), ${literal(value)}, 0::UTINYINT, 10)`,
        )
        await database.run(
          `create or replace temp table v as select * from (values ${rows.join(',')}) v(series, "at", value, quality, received_after_s)`,
        )
        const members = bundle.slots.map(
          ({ maximumAgeMinutes }, slot) => `(1, ${slot}, 0, ${slot}, ${(maximumAgeMinutes ?? 0) * 60})`,
        )
        const outputs = bundle.outputs.map(({ of }, at) => `(1, ${outputNumber(of)}, null::DOUBLE, ${at})`)
        const sql = derivedSql(bundle, {
          values: 'v',
          held: 'v',
          members: `(select * from (values ${members.join(',')}) m(bundle, slot, generation, series, maximum_age_s))`,
          outputs: `(select * from (values ${outputs.join(',')}) o(bundle, output, constant, series))`,
          terms: '(select 0 as bundle)',
        })
        const made = await database.rows(
          `select series, epoch("at")::INTEGER as second, value, quality from (${sql}) order by all`,
        )
        for (const { second, value } of reads) {
          const held = names.map(
            (_, slot) =>
              reads.findLast(
                (one) =>
                  one.slot === slot &&
                  one.value !== null &&
                  one.second <= second &&
                  second - one.second <= 21_600,
              )?.value ?? null,
          )
          const expected = deriveValues(bundle, valuesOf(held))
          const rows = made.filter((row) => row.second === second)
          if (value === null || expected.some((one) => one.value === null)) {
            expect(rows).toEqual([])
            continue
          }
          complete += 1
          expected.forEach((one, at) => {
            const row = rows.find(({ series }) => series === at)
            expect(Math.abs((row?.value ?? Number.NaN) - (one.value ?? Number.NaN))).toBeLessThanOrEqual(
              1e-12 * Math.abs(one.value ?? 0),
            )
            expect(row?.quality).toBe(one.quality)
          })
        }
      },
    ),
    { seed: 42, numRuns: 40 },
  )
  expect(complete).toBeGreaterThan(120)
})

describe('its trail', () => {
  const trailOf = (site: PlanSite, series: string, settlements: readonly number[]) => {
    const bundle = bundleOf(site)
    const members = settlements.map((raw, at) =>
      readingOf({ series: `${names[at]}/settlement`, raw, rawUnit: 'mm', unit: 'mm' }, [
        { kind: 'zero', parameters: { value: 0 } },
      ]),
    )
    return derivedTrail(bundle, series, members[0]?.atEpochMs ?? 0, members)
  }

  test('writes the arithmetic out and carries the uncertainty by its weights', () => {
    const trail = trailOf(facade(), 'SL-1/deflection-ratio', [0, 2.9, 7.1, 5, 4.4])
    expect(trail.derived[0]?.sentence).toBe(
      'SP-3 is farthest off the straight line from SP-1 to SP-5: 7.1 − 0 − 0.1 × 21 = 5 mm; over 44 m that is 0.1136363636 mm/m.',
    )
    const tilt = trailOf(facade(), 'SL-1/tilt', [0, 2.9, 7.1, 5, 4.4])
    expect(tilt.derived[0]?.sentence).toContain('(4.4 − 0) / 44 = 0.1 mm/m')
    const one = tilt.sources[0]?.standardUncertainty ?? Number.NaN
    expect(tilt.standardUncertainty).toBeCloseTo((one * Math.SQRT2) / 44, 12)
  })

  test('tells published limits that are reached, and the category of damage as guidance', () => {
    const steep = trailOf(facade(), 'SP-2/angular-distortion', [0, 70, 20, 10, 0])
    expect(steep.cautions.join(' ')).toContain('structural damage from 1/150 (Skempton and MacDonald 1956)')
    const calm = trailOf(facade(), 'SP-2/angular-distortion', [0, 1, 1, 1, 0])
    expect(calm.cautions.filter((caution) => caution.includes('limits'))).toEqual([])
    const settled = [0, 2.9, 7.1, 5, 4.4]
    const bent = trailOf(facade({ structureHeightMetres: 9.7 }), 'SL-1/deflection-ratio', settled)
    expect(bent.cautions.join(' ')).toContain('Guidance, no verdict')
    expect(bent.cautions.join(' ')).toMatch(/sagging, E\/G 2\.6 .* category 0 of damage/)
    expect(trailOf(facade(), 'SL-1/deflection-ratio', settled).cautions.join(' ')).not.toContain('Guidance')
  })
})

test.each([
  ['too few points', facade({}, { order: names.slice(0, 2) }), 'structure-line-short'],
  ['no length of a round', facade({ surveyMaximumAgeDays: null }), 'survey-age-expected'],
  ['a bent line', facade({}, { beside: [0, 0, 4] }), 'structure-line-bent'],
  [
    'points out of order',
    facade({}, { order: ['SP-1', 'SP-3', 'SP-2', 'SP-4', 'SP-5'] }),
    'structure-line-order',
  ],
  [
    'a point without settlement',
    { ...facade(), sensors: facade().sensors.slice(1) },
    'structure-point-without-settlement',
  ],
])('is refused: %s', (_, site, code) => {
  const made = derivedBundles(site)
  expect(made.ok ? [] : made.issues.map((issue) => issue.code)).toContain(code)
})

test('is published with the uncertainty of its weights, the deflection ratio with the widest', () => {
  const bundle = bundleOf(facade())
  const calibrations = names.map((id) => ({
    id: `${id}/1`,
    sensor: `${id}/settlement`,
    version: 1,
    validFromEpochMs: 0,
    certificate: null,
    standardUncertainty: 0.7,
    steps: [{ kind: 'zero' as const, parameters: { value: 0 } }],
  }))
  const published = seriesUncertainty(
    { sensors: facade().sensors, sensorBarometers: [], zeroReadings: [] },
    groupBy(calibrations, ({ sensor }) => sensor),
    [bundle],
  )
  const of = (series: string) => published(series)[0]?.standardUncertainty
  expect(of('SL-1/tilt')).toBeCloseTo((0.7 * Math.SQRT2) / 44, 12)
  // The point 9 m from an end of 44 m: 1, and of the ends 35/44 and 9/44.
  expect(of('SL-1/deflection-ratio')).toBeCloseTo((0.7 * Math.hypot(1, 35 / 44, 9 / 44)) / 44, 12)
  expect(of('SP-3/angular-distortion')).toBeCloseTo(0.7 * Math.hypot(1 / 12, 1 / 12, 1 / 44, 1 / 44), 12)
})

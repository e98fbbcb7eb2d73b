import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedShapeKey, derivedSql } from '#domain/reduction/derived-sql.ts'
import type { DerivedBundle, MemberValue } from '#domain/reduction/rules/derived-bundle.ts'
import { outputNumber } from '#domain/reduction/rules/slotted-sql.ts'
import { openRows } from './duckdb-rows.ts'
import { inclinometerBundle, strutBundle, thermalSplitBundle } from './sample-bundles.ts'

let database: Awaited<ReturnType<typeof openRows>>
beforeAll(async () => {
  database = await openRows()
})
afterAll(() => database.close())

type Instant = ReadonlyMap<string, MemberValue>

/** Derives in SQL; an answer an instant, in the order of the bundle's outputs. */
async function deriveInSql(bundle: DerivedBundle, instants: readonly Instant[], seed: number) {
  const ids = bundle.slots.flatMap(({ series }) => series)
  const numberOf = (id: string) => ids.indexOf(id) + 100
  const rows = instants.flatMap((members, second) =>
    [...members].map(
      ([id, { value, quality }]) =>
        `(${numberOf(id)}, make_timestamp(2027, 3, 1, 0, 0, ${second}.0), ${value === null ? 'null' : `'${value}'`}::DOUBLE, ${quality}::UTINYINT, ${second + numberOf(id)})`,
    ),
  )
  if (rows.length === 0) return instants.map(() => [])
  const members = bundle.slots.flatMap(({ series }, slot) =>
    series.map((id, generation) => `(1, ${slot}, ${generation}, ${numberOf(id)}, null::DOUBLE)`),
  )
  const outputs = bundle.outputs.map(({ of }, index) => `(1, ${outputNumber(of)}, null::DOUBLE, ${index})`)
  await database.run(
    `create or replace temp table v as select * from (values ${rows.join(',')}) v(series, "at", value, quality, received_after_s) order by hash(series + ${seed})`,
  )
  const sql = derivedSql(bundle, {
    values: 'v',
    held: 'v',
    members: `(select * from (values ${members.join(',')}) m(bundle, slot, generation, series, maximum_age_s))`,
    outputs: `(select * from (values ${outputs.join(',')}) o(bundle, output, constant, series))`,
    terms: '(select 0 as bundle)',
  })
  const made = await database.rows(
    `select series, second("at")::INTEGER as instant, value, quality, received_after_s from (${sql}) order by all`,
  )
  return instants.map((_, instant) => made.filter((row) => row.instant === instant))
}

const bundles = [
  ['four gauges', strutBundle(4)],
  ['two gauges', strutBundle(2)],
  ['eleven segments, toe fixed', inclinometerBundle(11, 'toe')],
  ['five segments, head fixed', inclinometerBundle(5, 'head')],
  ['thermal split of three gauges', thermalSplitBundle(3)],
] as const

const memberValue: fc.Arbitrary<MemberValue> = fc.record({
  value: fc.option(
    fc.integer({ min: -500_000, max: 500_000 }).map((thousandths) => thousandths / 1000),
    { nil: null, freq: 20 },
  ),
  quality: fc.constantFrom(0, 0, 0, 1, 2, 4, 64),
})

describe.each(bundles)('derivedSql for %s', (_name, bundle) => {
  test('gives what deriveValues gives, with members missing and null, in any order of rows', async () => {
    const ids = bundle.slots.flatMap(({ series }) => series)
    const instant = fc
      .tuple(...ids.map(() => fc.option(memberValue, { nil: null, freq: 25 })))
      .map(
        (members): Instant =>
          new Map(ids.flatMap((id, index) => (members[index] ? [[id, members[index]]] : []))),
      )
    let complete = 0
    let missing = 0
    await fc.assert(
      fc.asyncProperty(
        fc.array(instant, { minLength: 20, maxLength: 50 }),
        fc.nat(99),
        async (instants, seed) => {
          const made = await deriveInSql(bundle, instants, seed)
          instants.forEach((members, index) => {
            const rows = made[index] ?? []
            if (members.size === 0) {
              expect(rows).toEqual([])
              return
            }
            const expected = deriveValues(bundle, members)
            expect(rows.map(({ value, quality }) => ({ value, quality }))).toEqual(expected)
            if (expected[0]?.value === null) missing += 1
            else complete += 1
          })
        },
      ),
      { seed: 7, numRuns: 25 },
    )
    expect(complete).toBeGreaterThan(50)
    if (bundle.rule.kind === 'cumulative') expect(missing).toBeGreaterThan(50)
  })

  test('is received when its last member was', async () => {
    const ids = bundle.slots.flatMap(({ series }) => series)
    const members: Instant = new Map(ids.map((id) => [id, { value: 1, quality: 0 }]))
    const [rows = []] = await deriveInSql(bundle, [members], 0)
    expect(rows.map((row) => row.received_after_s)).toEqual(bundle.outputs.map(() => 100 + ids.length - 1))
  })
})

test('of two sums equally great the positive one is the deflection, as in deriveValues', async () => {
  const bundle = inclinometerBundle(2, 'head')
  const members: Instant = new Map([
    ['IP-1-1/inclination-a', { value: 5, quality: 0 }],
    ['IP-1-2R/inclination-a', { value: -10, quality: 0 }],
  ])
  const [rows = []] = await deriveInSql(bundle, [members], 0)
  expect(rows.map(({ value }) => value)).toEqual([5, -5, 5])
  expect(deriveValues(bundle, members).map(({ value }) => value)).toEqual([5, -5, 5])
})

test('bundles of one rule and length share a query, others do not', () => {
  const keys = bundles.map(([, bundle]) => derivedShapeKey(bundle))
  expect(new Set(keys).size).toBe(5)
  expect(derivedShapeKey(strutBundle(4))).toBe(keys[0])
})

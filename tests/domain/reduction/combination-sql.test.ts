import fc from 'fast-check'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedShapeKey, derivedSql } from '#domain/reduction/derived-sql.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { DerivedBundle, MemberValue } from '#domain/reduction/rules/derived-bundle.ts'
import { openRows } from './duckdb-rows.ts'

let database: Awaited<ReturnType<typeof openRows>>
beforeAll(async () => {
  database = await openRows()
})
afterAll(() => database.close())

const slotCount = 4
/** The last slot is a survey that may be 300 s old. */
const surveyAgeMinutes = 5

/** A bundle of invented combinations, and the greatest of some; members are named `bundle/slot`. */
const bundleOf = (
  name: string,
  combinations: readonly { constant: number; terms: readonly { slot: number; weight: number }[] }[],
  greatestOf: readonly number[] | null = null,
): DerivedBundle => ({
  instrument: name,
  rule: {
    kind: 'combination',
    combinations: combinations.map((one) => ({ ...one, says: 'Sum', formula: 'Σ' })),
    ...(greatestOf === null ? {} : { greatestOf }),
  },
  slots: Array.from({ length: slotCount }, (_, slot) => ({
    point: `${name}-${slot}`,
    depthMetres: slot,
    series: [`${name}/${slot}`],
    maximumAgeMinutes: slot === slotCount - 1 ? surveyAgeMinutes : null,
  })),
  outputs: [...combinations.keys(), ...(greatestOf === null ? [] : ['whole' as const])].map((of) => ({
    id: `${name}-${of}/strain`,
    point: name,
    measure: 'strain' as const,
    unit: 'mm/m',
    decimals: 3,
    positiveMeans: null,
    of,
  })),
  intervalMinutes: 60,
  lateAfterMinutes: 180,
})

const amount = fc.double({ min: -1e6, max: 1e6, noNaN: true })
const combinations = fc.array(
  fc.record({
    constant: amount,
    terms: fc.array(fc.record({ slot: fc.nat(slotCount - 1), weight: amount }), {
      minLength: 1,
      maxLength: 12,
    }),
  }),
  { minLength: 1, maxLength: 4 },
)
const member: fc.Arbitrary<MemberValue | null> = fc.option(
  fc.record({
    value: fc.option(amount, { nil: null, freq: 8 }),
    quality: fc.constantFrom(0, 0, 2, 4),
  }),
  { nil: null, freq: 8 },
)
const reading = fc.tuple(...Array.from({ length: slotCount }, () => member))

interface Read {
  readonly second: number
  readonly members: readonly (MemberValue | null)[]
}

const literal = (value: number | null) =>
  value === null ? 'null::DOUBLE' : `'${value.toExponential()}'::DOUBLE`

async function deriveInSql(bundles: readonly DerivedBundle[], reads: readonly (readonly Read[])[]) {
  const number = (bundle: number, slot: number) => bundle * 10 + slot
  const rows = reads.flatMap((own, bundle) =>
    own.flatMap(({ second, members }) =>
      members.flatMap((one, slot) =>
        one === null
          ? []
          : [
              `(${number(bundle, slot)}, make_timestamp(${second}000000::BIGINT), ${literal(one.value)}, ${one.quality}::UTINYINT, 10)`,
            ],
      ),
    ),
  )
  if (rows.length === 0) return []
  await database.run(
    `create or replace temp table v as select * from (values ${rows.join(',')}) v(series, "at", value, quality, received_after_s) order by hash(series)`,
  )
  const table = (rowsOf: readonly string[], heads: string) =>
    `(select * from (values ${rowsOf.join(',')}) t(${heads}))`
  const sql = derivedSql(bundles[0] as DerivedBundle, {
    values: 'v',
    held: 'v',
    members: table(
      bundles.flatMap(({ slots }, bundle) =>
        slots.map(
          ({ maximumAgeMinutes }, slot) =>
            `(${bundle}, ${slot}, 0, ${number(bundle, slot)}, ${maximumAgeMinutes === null ? 'null::DOUBLE' : maximumAgeMinutes * 60})`,
        ),
      ),
      'bundle, slot, generation, series, maximum_age_s',
    ),
    outputs: table(
      bundles.flatMap(({ rule }, bundle) =>
        rule.kind !== 'combination'
          ? []
          : [
              ...rule.combinations.map(
                ({ constant }, output) =>
                  `(${bundle}, ${output}, ${literal(constant)}, ${bundle * 100 + output})`,
              ),
              ...(rule.greatestOf
                ? [`(${bundle}, -1, null::DOUBLE, ${bundle * 100 + rule.combinations.length})`]
                : []),
            ],
      ),
      'bundle, output, constant, series',
    ),
    terms: table(
      bundles.flatMap(({ rule }, bundle) =>
        rule.kind !== 'combination'
          ? []
          : [
              ...rule.combinations.flatMap(({ terms }, output) =>
                terms.map(
                  ({ slot, weight }, term) => `(${bundle}, ${output}, ${term}, ${slot}, ${literal(weight)})`,
                ),
              ),
              ...(rule.greatestOf ?? []).map((one, term) => `(${bundle}, -1, ${term}, ${one}, 1::DOUBLE)`),
            ],
      ),
      'bundle, output, term, slot, weight',
    ),
  })
  return database.rows(
    `select series, epoch("at")::INTEGER as second, value, quality, received_after_s from (${sql})`,
  )
}

/** The members at an instant: what was read then, and the youngest survey that has a value and may still stand. */
function membersAt(name: string, reads: readonly Read[], second: number): Map<string, MemberValue> {
  const members = new Map<string, MemberValue>()
  const now = reads.find((one) => one.second === second)
  now?.members.slice(0, -1).forEach((one, slot) => {
    if (one) members.set(`${name}/${slot}`, one)
  })
  const survey = reads
    .filter((one) => one.second <= second && second - one.second <= surveyAgeMinutes * 60)
    .findLast((one) => one.members.at(-1)?.value != null)
    ?.members.at(-1)
  if (survey) members.set(`${name}/${slotCount - 1}`, survey)
  return members
}

describe('the query of combinations', () => {
  test.each([
    ['alone', false],
    ['with the greatest of some', true],
  ])(
    'gives what the function gives, for bundles of every length at once, with members and surveys missing: %s',
    async (_, greatest) => {
      let known = 0
      let unknown = 0
      await fc.assert(
        fc.asyncProperty(
          fc.array(fc.tuple(combinations, fc.array(reading, { minLength: 3, maxLength: 12 })), {
            minLength: 2,
            maxLength: 4,
          }),
          async (given) => {
            const bundles = given.map(([own], index) =>
              bundleOf(`B${index}`, own, greatest ? [...own.keys()].slice(index % own.length) : null),
            )
            const reads = given.map(([, own]) =>
              own.map((members, index): Read => ({ second: 1000 + index * 130, members })),
            )
            const made = await deriveInSql(bundles, reads)
            bundles.forEach((bundle, index) => {
              for (const { second, members } of reads[index] ?? []) {
                const rows = made.filter(
                  (row) => Math.floor((row.series ?? 0) / 100) === index && row.second === second,
                )
                if (members.slice(0, -1).every((one) => one === null)) {
                  expect(rows).toEqual([])
                  continue
                }
                const expected = deriveValues(
                  bundle,
                  membersAt(bundle.instrument, reads[index] ?? [], second),
                )
                expected.forEach(({ value, quality: bits }, output) => {
                  const row = rows.find((one) => one.series === index * 100 + output)
                  if (value === null) {
                    unknown += 1
                    expect(row?.value).toBeNull()
                  } else {
                    known += 1
                    expect(Math.abs((row?.value ?? Number.NaN) - value)).toBeLessThanOrEqual(
                      1e-12 * Math.abs(value),
                    )
                  }
                  expect(row?.quality).toBe(bits)
                })
              }
            })
          },
        ),
        { seed: 21, numRuns: 40 },
      )
      expect(known).toBeGreaterThan(200)
      expect(unknown).toBeGreaterThan(200)
    },
  )

  test('a survey too old, or none yet, leaves no value; one within its age stands for later instants', async () => {
    const bundle = bundleOf('B0', [
      {
        constant: 1,
        terms: [
          { slot: 0, weight: 2 },
          { slot: 3, weight: 1 },
        ],
      },
    ])
    const one = { value: 5, quality: 0 }
    const reads: readonly Read[] = [
      { second: 1000, members: [one, null, null, null] },
      { second: 1100, members: [null, null, null, { value: 7, quality: 4 }] },
      { second: 1400, members: [one, null, null, null] },
      { second: 1401, members: [one, null, null, null] },
    ]
    const rows = (await deriveInSql([bundle], [reads])).toSorted((a, b) => (a.second ?? 0) - (b.second ?? 0))
    expect(rows.map(({ second, value, quality: bits }) => [second, value, bits])).toEqual([
      [1000, null, quality.incomplete],
      [1400, 18, 4],
      [1401, null, quality.incomplete],
    ])
  })

  test('all combinations of a site are one query', () => {
    const one = bundleOf('B0', [{ constant: 0, terms: [{ slot: 0, weight: 1 }] }])
    const other = bundleOf('B1', [
      { constant: 2, terms: [{ slot: 1, weight: 3 }] },
      { constant: 0, terms: [{ slot: 2, weight: 1 }] },
    ])
    expect(derivedShapeKey(one)).toBe(derivedShapeKey(other))
    const greatest = bundleOf('B2', [{ constant: 0, terms: [{ slot: 0, weight: 1 }] }], [0])
    expect(derivedShapeKey(greatest)).not.toBe(derivedShapeKey(one))
  })
})

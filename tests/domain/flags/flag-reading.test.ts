import fc from 'fast-check'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { checkedReadings } from '#domain/flags/checked-readings.ts'
import { bitsOf, bitsSql, type CheckLimits, findings } from '#domain/flags/flag-reading.ts'
import { limitColumns } from '#domain/flags/limits.ts'
import { markNote, marksOf, readingChecks } from '#domain/flags/reading-checks.ts'
import { literal, openRows } from '../reduction/duckdb-rows.ts'

let database: Awaited<ReturnType<typeof openRows>>
beforeAll(async () => {
  database = await openRows()
})
afterAll(() => database.close())

const limit = fc.option(fc.double({ min: -5, max: 5, noNaN: true }), { nil: null })
const anyLimits = fc.record(
  Object.fromEntries(
    readingChecks.map((check) => [
      check,
      fc.record({ suspectBelow: limit, suspectAbove: limit, failBelow: limit, failAbove: limit }),
    ]),
  ),
) as fc.Arbitrary<CheckLimits>
const anySeries = fc.array(
  fc.tuple(
    fc.integer({ min: 1, max: 200 }),
    fc.option(fc.integer({ min: -40, max: 40 })),
    fc.integer({ min: -9, max: 9 }),
  ),
  { minLength: 1, maxLength: 12 },
)

it('marks the same by function and by SQL', async () => {
  await fc.assert(
    fc.asyncProperty(anySeries, anyLimits, async (steps, limits) => {
      let minute = 0
      const readings = steps.map(([minutes, tenths, receivedAfterSeconds]) => {
        minute += minutes
        const value = tenths === null ? null : tenths / 10
        return { atEpochMs: minute * 60_000, value, receivedAfterSeconds }
      })
      const checked = checkedReadings(readings, {
        decimals: 0,
        neighbourMinutes: 60,
        dueSinceEpochMs: 0,
        duplicateAt: (at) => (at % 7 === 0 ? null : 1.5),
        temperatureAt: (at) => (at % 5 === 0 ? null : -2),
      })
      for (const one of checked) {
        const micros = (at: number) => `${at * 1000}::bigint`
        const columns = readingChecks.flatMap((check, at) =>
          Object.entries(limitColumns(at)).map(
            ([name, column]) =>
              `${literal(limits[check]?.[name as keyof ReturnType<typeof limitColumns>] ?? null)} as ${column}`,
          ),
        )
        const [row] = await database.rows(`select ${bitsSql(readingChecks)} as bits from (select
          ${micros(one.atEpochMs)} as at_us, ${literal(one.value)} as value, ${one.receivedAfterSeconds} as received_after_s,
          ${one.beforeEpochMs === null ? 'null::bigint' : micros(one.beforeEpochMs)} as before_us, ${literal(one.before?.value ?? null)} as before_value,
          ${one.after ? micros(one.after.atEpochMs) : 'null::bigint'} as after_us, ${literal(one.after?.value ?? null)} as after_value,
          ${micros(one.unchangedSinceEpochMs)} as unchanged_since_us, ${micros(one.dueSinceEpochMs)} as due_since_us,
          ${literal(one.duplicate)} as duplicate_value, ${literal(one.temperatureDegC)} as temperature_value, ${columns.join(', ')})`)
        expect(row?.bits).toBe(bitsOf(findings(one, limits)))
      }
    }),
    { seed: 4, numRuns: 40 },
  )
})

it('numbers as QARTOD does, and says what is marked', () => {
  const limits: CheckLimits = {
    spike: { suspectBelow: null, suspectAbove: 1, failBelow: null, failAbove: 3 },
  }
  const values = [0, 0, 5, 0, 2, 0]
  const readings = values.map((value, hour) => ({
    atEpochMs: hour * 3_600_000,
    value,
    receivedAfterSeconds: 5,
  }))
  const found = checkedReadings(readings, { decimals: 1, neighbourMinutes: 180, dueSinceEpochMs: 0 }).map(
    (one) => findings(one, limits),
  )
  const flag = (at: number) => found[at]?.find(({ check }) => check === 'spike')?.flag
  expect([0, 1, 2, 4, 5].map(flag)).toEqual([2, 3, 4, 3, 2])
  expect(marksOf(bitsOf(found[2] ?? [])).map(markNote)).toEqual(['fails: spike'])
  expect(findings(null, limits)[0]?.flag).toBe(9)
})

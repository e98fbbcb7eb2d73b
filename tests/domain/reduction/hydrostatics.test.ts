import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import {
  piezometricLevelMetres,
  piezometricLevelSql,
  pressureHeadMetres,
  pressureHeadSql,
} from '#domain/reduction/hydrostatics.ts'
import { literal, openRows } from './duckdb-rows.ts'

let database: Awaited<ReturnType<typeof openRows>>
beforeAll(async () => {
  database = await openRows()
})
afterAll(() => database.close())

test('SQL and function are one, with and without a stated unit weight', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.double({ min: -200, max: 2000, noNaN: true }),
      fc.double({ min: -100, max: 500, noNaN: true }),
      fc.option(fc.double({ min: 9.7, max: 10.3, noNaN: true }), { nil: undefined }),
      async (u, tip, unitWeight) => {
        const rows = await database.rows(
          `select ${pressureHeadSql('u', unitWeight)} as head, ${piezometricLevelSql('tip', 'u', unitWeight)} as level from (select ${literal(u)} as u, ${literal(tip)} as tip)`,
        )
        expect(rows[0]?.head).toBeCloseTo(pressureHeadMetres(u, unitWeight), 12)
        expect(rows[0]?.level).toBe(piezometricLevelMetres(tip, u, unitWeight) + 0)
      },
    ),
    { seed: 10, numRuns: 100 },
  )
})

test('an unknown pressure has no level', async () => {
  const rows = await database.rows(`select ${piezometricLevelSql('-14e0', 'null::DOUBLE')} as level`)
  expect(rows[0]?.level).toBeNull()
})

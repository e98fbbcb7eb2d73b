import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { changes, differences, ratesPerDay } from '#domain/alerts/watched-values.ts'
import { fitLine } from '#domain/statistics/least-squares.ts'

const hour = 3_600_000
const values = (...given: readonly (readonly [hours: number, value: number | null, received?: number])[]) =>
  given.map(([at, value, received]) => ({
    atEpochMs: at * hour,
    receivedAtEpochMs: (received ?? at) * hour,
    value,
  }))
const of = (given: readonly { readonly value: number | null }[]) => given.map(({ value }) => value)

test('a change is counted from the last value at or before its instant', () => {
  const given = values([0, 5], [1, null], [2, 7], [3, 9])
  expect(of(changes(given, 1 * hour))).toEqual([0, null, 2, 4])
  expect(of(changes(given, -1))).toEqual([null, null, null, null])
})

describe('ratesPerDay', () => {
  test('needs three readings that span half of the window', () => {
    expect(of(ratesPerDay(values([0, 0], [6, 1], [12, 2], [18, 4]), 24 * hour))).toEqual([
      null,
      null,
      4,
      26 / 5,
    ])
    expect(of(ratesPerDay(values([0, 0], [1, 1], [2, 2]), 24 * hour))).toEqual([null, null, null])
    expect(of(ratesPerDay(values([0, 0], [30, 1], [31, 2], [32, 3]), 24 * hour))).toEqual([
      null,
      null,
      null,
      null,
    ])
  })

  test('is the slope of the least-squares line, and known with the last of its receipts', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer({ min: 1, max: 9 }), fc.integer({ min: -99, max: 99 })), {
          minLength: 3,
          maxLength: 12,
        }),
        (steps) => {
          let at = 300_000
          const given = steps.flatMap(([wait, value]) => {
            at += wait
            return values([at, value, at + value])
          })
          const rates = ratesPerDay(given, 24 * hour)
          for (const [which, rate] of rates.entries()) {
            const end = given[which]?.atEpochMs ?? 0
            const window = given.slice(0, which + 1).filter((one) => one.atEpochMs >= end - 24 * hour)
            const fit = fitLine(
              window.map((one) => one.atEpochMs / (24 * hour)),
              window.map((one) => one.value ?? 0),
            )
            if (rate.value === null) continue
            expect(rate.value).toBeCloseTo(fit.ok ? fit.value.slope : Number.NaN, 6)
            expect(rate.receivedAtEpochMs).toBe(Math.max(...window.map((one) => one.receivedAtEpochMs)))
          }
        },
      ),
      { seed: 6, numRuns: 100 },
    )
  })
})

test('a difference takes the nearest earlier reading of the other, if it is not too old', () => {
  const other = values([0, 10], [2, null], [3, 12, 50])
  const given = values([1, 15], [2.5, 15], [3, 15], [9, 15])
  const found = differences(given, other, 2 * hour)
  expect(of(found)).toEqual([5, null, 3, null])
  expect(found[2]?.receivedAtEpochMs).toBe(50 * hour)
})

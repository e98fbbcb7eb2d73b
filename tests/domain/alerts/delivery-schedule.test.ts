import fc from 'fast-check'
import { expect, test } from 'vitest'
import { mostAttempts, waitAfterAttempt } from '#domain/alerts/delivery-schedule.ts'

test('without spread the first repeats come within a minute and a half, the last more than a day after the first', () => {
  const waits = Array.from({ length: mostAttempts }, (_, i) => waitAfterAttempt(i + 1, 0.5))
  expect(waits.slice(0, 3)).toEqual([5_000, 15_000, 60_000])
  // Standard Webhooks 1.0.0, example retry schedule: 5 and 30 minutes, 2, 5, 10 and 14 hours.
  expect(waits.slice(3, 9).map((wait) => Number(wait) / 60_000)).toEqual([5, 30, 120, 300, 600, 840])
  expect(waits.at(-1)).toBeNull()
  expect(waits.reduce<number>((sum, wait) => sum + (wait ?? 0), 0)).toBeGreaterThan(24 * 3_600_000)
})

test('every wait is longer than the one before, whatever the spread', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: mostAttempts - 2 }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (attempt, one, other) => {
        const [early, late] = [waitAfterAttempt(attempt, one), waitAfterAttempt(attempt + 1, other)]
        expect(Number(late)).toBeGreaterThan(Number(early))
      },
    ),
    { seed: 6 },
  )
})

test('a receiver is given the time it asks for, up to an hour', () => {
  expect(waitAfterAttempt(1, 0.5, 90_000)).toBe(90_000)
  expect(waitAfterAttempt(1, 0.5, 7 * 86_400_000)).toBe(3_600_000)
  expect(waitAfterAttempt(6, 0, 1000)).toBe(0.85 * 7_200_000)
  expect(waitAfterAttempt(mostAttempts, 0.5, 1000)).toBeNull()
})

test('the spread stays within 15 %', () => {
  expect(waitAfterAttempt(3, 0)).toBe(51_000)
  expect(waitAfterAttempt(3, 1)).toBe(69_000)
  expect(waitAfterAttempt(3, 7)).toBe(69_000)
})

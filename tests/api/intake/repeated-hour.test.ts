import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { tellPassesApart } from '../../../api/intake/repeated-hour.ts'

const minute = 60e6
/** Wall times in minutes after midnight of the day on which 00:00 to 01:00 comes twice; negative: the day before. */
function tell(
  run: readonly number[],
  around: { before?: number; after?: number; received?: readonly number[] } = {},
): readonly number[] {
  return tellPassesApart({
    wallMicros: run.map((wall) => wall * minute),
    secondMicros: run.map((wall) => (wall + 60) * minute),
    receivedMicros: run.map((_, i) => (around.received?.[i] ?? 100_000) * minute),
    beforeMicros: around.before === undefined ? null : around.before * minute,
    afterMicros: around.after === undefined ? null : around.after * minute,
  })
}

describe('the order of the rows decides', () => {
  test.each([
    ['the clock goes back', [0, 30, 0, 30], { before: -30, after: 60 }, [1, 1, 2, 2]],
    ['the same half hour twice', [30, 30], { before: -30, after: 90 }, [1, 2]],
    ['a gap in each pass', [15, 45, 0], { before: -15, after: 60 }, [1, 1, 2]],
    ['the file begins in the hour', [0, 30, 0, 30], { after: 60 }, [1, 1, 2, 2]],
    ['the file ends in the hour', [0, 30, 0], { before: -30 }, [1, 1, 2]],
    ['newest first', [30, 0, 30, 0], { before: 60, after: -30 }, [2, 2, 1, 1]],
    ['newest first, the same half hour twice', [30, 30], { before: 90, after: -30 }, [2, 1]],
  ])('%s', (_, run, around, expected) => {
    expect(tell(run, around)).toEqual(expected)
  })
})

describe('the order does not decide', () => {
  test.each([
    ['one pass only', [0, 30], { before: -30, after: 60 }],
    ['one row only', [30], { before: -30, after: 90 }],
    ['back twice: every row sent twice', [0, 0, 30, 30], { before: -30, after: 60 }],
    ['rows out of order around it', [0, 30, 0, 30], { before: 120, after: 60 }],
    ['the same time twice and nothing around it', [30, 30], {}],
  ])('%s', (_, run, around) => {
    expect(tell(run, around)).toEqual(run.map(() => 0))
  })
})

test('a row received before its second pass came is of the first', () => {
  expect(tell([0, 30], { before: -30, received: [1, 31] })).toEqual([1, 1])
  expect(tell([0, 30], { before: -30, received: [1, 200] })).toEqual([1, 0])
})

test('a complete record at any steady interval is told apart as it was', () => {
  fc.assert(
    fc.property(fc.constantFrom(5, 10, 15, 20, 30, 60), fc.nat(59), (interval, phase) => {
      const instants = range(-6, 12).map((i) => i * interval + (phase % interval))
      const inHour = instants.filter((at) => at >= 0 && at < 120)
      const walls = inHour.map((at) => (at >= 60 ? at - 60 : at))
      const passes = tell(walls, { before: -1, after: 60 })
      if (interval <= 60 && inHour.some((at) => at < 60) && inHour.some((at) => at >= 60))
        expect(passes).toEqual(inHour.map((at) => (at < 60 ? 1 : 2)))
    }),
    { seed: 2, numRuns: 300 },
  )
})

const range = (from: number, until: number) => Array.from({ length: until - from }, (_, i) => from + i)

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { keepExtremes } from '#domain/statistics/keep-extremes.ts'

const readings = fc
  .array(
    fc.tuple(fc.integer({ min: 1, max: 1000 }), fc.option(fc.integer({ min: -50, max: 50 }), { freq: 6 })),
    { maxLength: 300 },
  )
  .map((steps) => {
    let at = 0
    return {
      at: steps.map(([after]) => (at += after)),
      values: steps.map(([, value]) => value),
    }
  })

test('every bucket keeps its first, last, lowest and highest; indices ascend without repeats', () => {
  fc.assert(
    fc.property(readings, fc.integer({ min: 1, max: 40 }), ({ at, values }, buckets) => {
      const { indices } = keepExtremes(at, values, buckets)
      const kept = new Set(indices)
      expect([...indices]).toEqual([...kept].sort((a, b) => a - b))
      const start = at[0] ?? 0
      const span = ((at.at(-1) ?? 0) - start) / buckets || 1
      const groups = new Map<number, number[]>()
      values.forEach((value, index) => {
        if (value === null) return
        const bucket = Math.min(buckets - 1, Math.floor(((at[index] as number) - start) / span))
        groups.set(bucket, [...(groups.get(bucket) ?? []), index])
      })
      for (const group of groups.values()) {
        const inGroup = group.filter((index) => kept.has(index)).map((index) => values[index] as number)
        const all = group.map((index) => values[index] as number)
        expect(kept.has(group[0] as number)).toBe(true)
        expect(kept.has(group.at(-1) as number)).toBe(true)
        expect(Math.min(...inGroup)).toBe(Math.min(...all))
        expect(Math.max(...inGroup)).toBe(Math.max(...all))
      }
    }),
    { seed: 15 },
  )
})

test('absent runs stay one absent reading, and every gap is told by the readings on both its sides', () => {
  fc.assert(
    fc.property(
      readings,
      fc.integer({ min: 1, max: 40 }),
      fc.integer({ min: 1, max: 1000 }),
      ({ at, values }, buckets, longest) => {
        const { indices, gaps } = keepExtremes(at, values, buckets, longest)
        const kept = [...indices]
        const expected: [number, number][] = []
        let before = -1
        values.forEach((value, index) => {
          if (value === null) return
          if (before >= 0 && (index - before > 1 || (at[index] as number) - (at[before] as number) > longest))
            expected.push([before, index])
          before = index
        })
        expect(gaps).toEqual(expected)
        for (const [from, to] of gaps) {
          expect(kept).toContain(from)
          expect(kept).toContain(to)
          const between = kept.filter((index) => index > from && index < to)
          expect(between.map((index) => values[index])).toEqual(to - from > 1 ? [null] : [])
        }
      },
    ),
    { seed: 16 },
  )
})

test('a single peak of one reading among a million survives', () => {
  const count = 1_000_000
  const at = Float64Array.from({ length: count }, (_, index) => index * 60_000)
  const values = new Float64Array(count)
  values[654_321] = 3
  values[123_456] = -2
  const { indices } = keepExtremes(at, values, 1000)
  expect(indices.length).toBeLessThanOrEqual(4000)
  expect(indices).toContain(654_321)
  expect(indices).toContain(123_456)
})

test('nothing, one reading, only absent readings, all at one instant', () => {
  expect(keepExtremes([], [], 10)).toEqual({ indices: new Int32Array(), gaps: [] })
  expect([...keepExtremes([5], [1], 10).indices]).toEqual([0])
  expect([...keepExtremes([1, 2, 3], [null, Number.NaN, null], 10).indices]).toEqual([0])
  expect([...keepExtremes([7, 7, 7, 7], [2, 9, 1, 3], 5).indices]).toEqual([0, 1, 2, 3])
})

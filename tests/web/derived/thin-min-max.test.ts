import fc from 'fast-check'
import { expect, test } from 'vitest'
import { thinMinMax } from '../../../web/derived/thin-min-max.ts'

const line = fc.array(
  fc.record({
    step: fc.double({ min: 0, max: 0.4, noNaN: true }),
    y: fc.double({ min: -1e6, max: 1e6, noNaN: true }),
  }),
  { minLength: 1, maxLength: 400 },
)

function columns(rows: readonly { step: number; y: number }[]) {
  let at = 0
  const x = Float64Array.from(rows, (row) => {
    at += row.step
    return at
  })
  return { x, y: Float64Array.from(rows, (row) => row.y) }
}

test('lowest and highest of every pixel are kept, in order, and never more than four rows', () => {
  fc.assert(
    fc.property(line, (rows) => {
      const { x, y } = columns(rows)
      const kept = [...thinMinMax(x, y)]
      expect(kept).toEqual([...new Set(kept)].sort((left, right) => left - right))
      const pixels = new Set([...x].map(Math.floor))
      for (const pixel of pixels) {
        const all = [...x.keys()].filter((row) => Math.floor(x[row] as number) === pixel)
        const few = kept.filter((row) => Math.floor(x[row] as number) === pixel)
        expect(few.length).toBeLessThanOrEqual(4)
        const values = (of: number[]) => of.map((row) => y[row] as number)
        expect(Math.min(...values(few))).toBe(Math.min(...values(all)))
        expect(Math.max(...values(few))).toBe(Math.max(...values(all)))
        expect(few[0]).toBe(all[0])
        expect(few.at(-1)).toBe(all.at(-1))
      }
    }),
    { seed: 2 },
  )
})

test('a row without a value inside a dense pixel is kept, so that the gap is seen', () => {
  const x = new Float64Array(20).fill(3.5)
  const y = Float64Array.from({ length: 20 }, (_, row) => (row === 10 ? Number.NaN : row))
  expect([...thinMinMax(x, y)]).toContain(10)
})

test('nothing in, nothing out', () => {
  expect(thinMinMax([], [])).toHaveLength(0)
})

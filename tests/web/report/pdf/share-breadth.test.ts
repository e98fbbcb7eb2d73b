import fc from 'fast-check'
import { expect, test } from 'vitest'
import { shareBreadth } from '../../../../web/report/pdf/share-breadth.ts'

const column = (least: number, cells: readonly number[], padding = 8) => ({
  least,
  wanted: Math.max(least, ...cells.map((cell) => cell + padding)),
  cells,
  padding,
})

test('room goes where it saves lines: words get it, short cells keep theirs', () => {
  const numbers = column(40, [20, 22, 24])
  const words = column(60, [400, 380, 420])
  const remarks = column(60, [70, 10, 10])
  const [first, second, third] = shareBreadth([numbers, words, remarks], 300)
  expect(first).toBe(40)
  expect(second).toBeGreaterThan(160)
  expect(third).toBeGreaterThanOrEqual(60)
})

test('nothing under its least, nothing over what it wants, no room left while somebody wants it', () => {
  const columns = fc.array(
    fc
      .record({
        least: fc.integer({ min: 10, max: 60 }),
        cells: fc.array(fc.integer({ min: 0, max: 500 }), { minLength: 5, maxLength: 5 }),
      })
      .map(({ least, cells }) => column(least, cells)),
    { minLength: 1, maxLength: 8 },
  )
  fc.assert(
    fc.property(columns, fc.integer({ min: 0, max: 400 }), (all, more) => {
      const room = all.reduce((sum, { least }) => sum + least, 0) + more
      const widths = shareBreadth(all, room)
      const total = widths.reduce((sum, one) => sum + one, 0)
      expect(total).toBeLessThanOrEqual(room + 0.02)
      widths.forEach((width, place) => {
        expect(width).toBeGreaterThanOrEqual(all[place]?.least ?? 0)
        expect(width).toBeLessThanOrEqual((all[place]?.wanted ?? 0) + 0.02)
      })
      if (widths.some((width, place) => width < (all[place]?.wanted ?? 0) - 0.02))
        expect(total).toBeCloseTo(room, 1)
    }),
    { seed: 3, numRuns: 100 },
  )
})

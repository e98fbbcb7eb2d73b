import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { rowAfterKey, rowWindow } from '../../../../web/views/register/row-window.ts'

describe('rows in sight', () => {
  it('holds every row that can be seen and stays within the table', () => {
    const size = fc.integer({ min: 0, max: 3000 })
    fc.assert(
      fc.property(size, fc.integer({ min: 20, max: 80 }), size, size, (count, height, row, visible) => {
        const scrolled = Math.min(row, Math.max(0, count - 1)) * height
        const { first, end } = rowWindow(count, height, scrolled, visible)
        expect(first).toBeGreaterThanOrEqual(0)
        expect(end).toBeLessThanOrEqual(count)
        expect(first).toBeLessThanOrEqual(end)
        const lastSeen = Math.min(count - 1, Math.floor((scrolled + visible - 1) / height))
        if (count > 0 && visible > 0) {
          expect(first).toBeLessThanOrEqual(Math.floor(scrolled / height))
          expect(end).toBeGreaterThan(lastSeen)
        }
      }),
      { seed: 11 },
    )
  })
})

describe('keys', () => {
  it.each([
    ['ArrowDown', 4, 5],
    ['ArrowDown', 9, 9],
    ['ArrowUp', 0, 0],
    ['PageDown', 4, 7],
    ['PageUp', 1, 0],
    ['Home', 5, 0],
    ['End', 5, 9],
    ['a', 5, null],
  ])('%s from row %d goes to %s of ten', (key, from, to) => {
    expect(rowAfterKey(key, from, 10, 3)).toBe(to)
  })

  it('goes nowhere in an empty table', () => {
    expect(rowAfterKey('ArrowDown', 0, 0, 3)).toBeNull()
  })
})

import { describe, expect, it } from 'vitest'
import { formatShare, formatValue, readableDecimals, withUnit } from '../../../web/ui/format-value.ts'

describe('numbers on the screen', () => {
  it.each([
    [null, 1, '–'],
    [Number.NaN, 1, '–'],
    [-0.04, 1, '0.0'],
    [-1.25, 1, '−1.3'],
    [12, 0, '12'],
  ])('writes %s with %d decimals', (value, decimals, text) => {
    expect(formatValue(value, decimals)).toBe(text)
  })

  it.each([
    [2, null, 2],
    [4, 0.0015, 3],
    [3, 0.3, 1],
    [2, 15, 0],
    [1, 0.001, 1],
  ])('keeps of %d decimals with uncertainty %s just %d', (decimals, uncertainty, kept) => {
    expect(readableDecimals(decimals, uncertainty)).toBe(kept)
  })

  it('says nothing where there is no share', () => {
    expect(formatShare(null)).toBe('')
    expect(formatShare(1.249)).toBe('125 %')
  })

  it.each([
    ['8354.07', '10*3.Hz2', '8354.07 Hz²/1000'],
    ['12.7', 'degC', '12.7 °C'],
    ['0.05', 'deg', '0.05°'],
    ['−304', 'um/m', '−304 µm/m'],
    ['4', 'furlong', '4 furlong'],
    ['4', '', '4'],
  ])('writes %s with %s as the trade does', (number, unit, text) => {
    expect(withUnit(number, unit)).toBe(text)
  })
})

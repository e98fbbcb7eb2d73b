import { expect, test } from 'vitest'
import { quantityText } from '../../../web/panels/ground/quantity-text.ts'

test('a figure has the digits that its error leaves a meaning, and one more', () => {
  const of = (value: number, standardError: number | null, unit = 'mm') =>
    quantityText({ name: '', value, unit, standardError })
  expect(of(4.5312, 0.7234)).toBe('4.53 ± 0.72 mm')
  expect(of(-123.4, 23)).toBe('−123 ± 23 mm')
  expect(of(0.0813, 0.0145, '%')).toBe('0.081 ± 0.015 %')
  expect(of(12.3456, null)).toBe('12.35 mm')
  expect(of(0, null)).toBe('0 mm')
  expect(of(0.000012345, null, '')).toBe('1.234 × 10⁻⁵')
  expect(of(Number.NaN, null)).toBe('– mm')
})

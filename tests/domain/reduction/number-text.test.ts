import { expect, test } from 'vitest'
import { numberText, operandText, quantityText } from '#domain/reduction/number-text.ts'

test.each([
  [0, '0'],
  [-0, '0'],
  [1234567.5, '1\u202f234\u202f567.5'],
  [-12.3, '−12.3'],
  [0.1 + 0.2, '0.3'],
  [8436.12025, '8436.12025'],
  [1.4051e-3, '0.0014051'],
  [1.019e-7, '1.019 × 10⁻⁷'],
  [3.4e38, '3.4 × 10³⁸'],
  [54321, '54\u202f321'],
  [1 / 3, '0.3333333333'],
  [999_999_999_999, '1 × 10¹²'],
])('%d reads %s', (value, text) => {
  expect(numberText(value)).toBe(text)
})

test('a negative operand stands in brackets, a degree sign close to its number', () => {
  expect(operandText(-2)).toBe('(−2)')
  expect(operandText(2)).toBe('2')
  expect(quantityText(0.057, 'deg')).toBe('0.057°')
  expect(quantityText(12, 'Cel')).toBe('12 °C')
})

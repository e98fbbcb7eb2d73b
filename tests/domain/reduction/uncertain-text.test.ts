import fc from 'fast-check'
import { expect, test } from 'vitest'
import { uncertainText } from '#domain/reduction/uncertain-text.ts'

test.each([
  [12.3456789, 0.361492854, '12.35', '0.36'],
  [-3.33e-7, 0.1, '0.00', '0.10'],
  [-4.5, 0.0996, '−4.50', '0.10'],
  [1.23456e-4, 1.9e-6, '0.0001235', '0.0000019'],
  [12_345, 361, '12350', '360'],
  [-12_345, 12, '−12345', '12'],
])('%d ± %d reads %s ± %s', (value, standardUncertainty, shown, uncertainty) => {
  expect(uncertainText(value, standardUncertainty)).toEqual({ value: shown, uncertainty })
})

test('without an uncertainty nothing is rounded', () => {
  expect(uncertainText(1, null)).toBeNull()
  expect(uncertainText(1, 0)).toBeNull()
})

test('what is shown lies within a twentieth of the uncertainty of what is known', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
      (value, standardUncertainty) => {
        const text = uncertainText(value, standardUncertainty)
        const read = (shown = '') => Number(shown.replace('−', '-'))
        expect(Math.abs(read(text?.value) - value)).toBeLessThanOrEqual(standardUncertainty / 18)
        expect(Math.abs(read(text?.uncertainty) / standardUncertainty - 1)).toBeLessThan(0.051)
      },
    ),
  )
})

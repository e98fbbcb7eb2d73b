import { expect, test } from 'vitest'
import { beforePoint, keepUnits, plainWords } from '../../../web/report/keep-units.ts'

const shown = (text: string) => keepUnits(text).replaceAll('\u00a0', '_')

// ISO 80000-1, 7.1.4 and the SI brochure, 5.4.3 (from memory): a space between number and unit, which belong together.
test('a number stays with its unit, its sign and its month', () => {
  expect(shown('fell 3.4 mm in 12 h')).toBe('fell 3.4_mm in 12_h')
  expect(shown('12 % of 40 kPa')).toBe('12_% of 40_kPa')
  expect(shown('on 5 March 2026')).toBe('on 5_March 2026')
  expect(shown('2.1 ± 0.3 mm')).toBe('2.1_±_0.3_mm')
  expect(shown('Table 3 and Level 2')).toBe('Table_3 and Level_2')
})

test('words that only begin like a unit are left alone', () => {
  expect(shown('3 more, 4 stages, 5 metres')).toBe('3 more, 4 stages, 5 metres')
})

test('digits before the decimal point, with their sign', () => {
  expect(beforePoint('−12.5 ± 0.3')).toBe('−12')
  expect(beforePoint('7')).toBe('7')
  expect(beforePoint('1\u202f204.5')).toBe('1\u202f204')
  expect(beforePoint('< 0.5')).toBe('< 0')
  expect(beforePoint('–')).toBeNull()
  expect(beforePoint('no value')).toBeNull()
})

test('runs of words are one text', () => {
  expect(plainWords(['It is ', { strong: '3 mm' }, '.'])).toBe('It is 3\u00a0mm.')
})

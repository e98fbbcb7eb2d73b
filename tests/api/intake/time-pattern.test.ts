import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { compileTimePattern } from '../../../api/intake/time-pattern.ts'

function read(pattern: string, text: string): { micros: number; statesOffset: boolean } {
  const compiled = compileTimePattern(pattern)
  if (!compiled.ok) throw new Error(compiled.issues[0]?.message)
  const bytes = new TextEncoder().encode(text)
  const micros = compiled.value.read(bytes, 0, bytes.length)
  return { micros, statesOffset: compiled.value.statesOffset }
}

const micros = (text: string) => Date.parse(text) * 1000

describe('patterns', () => {
  test.each([
    ['yyyy-MM-dd HH:mm:ss', '2027-03-31 14:05:09', '2027-03-31T14:05:09Z'],
    ['dd.MM.yyyy HH:mm', '31.03.2027 14:05', '2027-03-31T14:05:00Z'],
    ['MM/dd/yyyy HH:mm', '3/1/2027 4:05', '2027-03-01T04:05:00Z'],
    ['yyyyMMddHHmmss', '20270331140509', '2027-03-31T14:05:09Z'],
    ['dd/MM/yyyy HH:mm:ss.SSS', '01/02/2027 00:00:00.25', '2027-02-01T00:00:00.250Z'],
    ['yyyy-MM-dd HH:mm', '2028-02-29 23:59', '2028-02-29T23:59:00Z'],
    ['yyyy-MM-dd HH:mm', '2027-12-31 24:00', '2028-01-01T00:00:00Z'],
  ])('%s reads %s', (pattern, text, expected) => {
    expect(read(pattern, text)).toEqual({ micros: micros(expected), statesOffset: false })
  })

  test.each([
    ['yyyy-MM-dd HH:mm', '2027-02-29 00:00'],
    ['yyyy-MM-dd HH:mm', '2027-13-01 00:00'],
    ['yyyy-MM-dd HH:mm', '2027-01-01 24:01'],
    ['yyyy-MM-dd HH:mm', '2027-01-01 12:60'],
    ['yyyy-MM-dd HH:mm', '2027-01-01 12:30:00'],
    ['yyyy-MM-dd HH:mm', '2027-01-01'],
    ['yyyy-MM-dd HH:mm', ''],
    ['yyyyMMddHHmm', '2027110112'],
    ['dd.MM.yyyy HH:mm', '31.03.27 14:05'],
  ])('%s does not read "%s"', (pattern, text) => {
    expect(read(pattern, text).micros).toBeNaN()
  })

  test('a pattern without a day, or with one twice, is refused with what is missing', () => {
    expect(compileTimePattern('yyyy-MM HH:mm').ok).toBe(false)
    expect(compileTimePattern('yyyy-MM-dd dd HH:mm').ok).toBe(false)
  })
})

describe('iso', () => {
  test.each([
    ['2027-03-31T14:05:09Z', '2027-03-31T14:05:09Z', true],
    ['2027-03-31t14:05z', '2027-03-31T14:05:00Z', true],
    ['2027-03-31 14:05:09.125+01:30', '2027-03-31T12:35:09.125Z', true],
    ['2027-03-31T14:05:09-0100', '2027-03-31T15:05:09Z', true],
    ['2027-03-31T14:05:09', '2027-03-31T14:05:09Z', false],
  ])('%s', (text, expected, statesOffset) => {
    expect(read('iso', text)).toEqual({ micros: micros(expected), statesOffset })
  })
  test.each([
    '2027-03-31',
    '2027-03-31T25:00Z',
    '2027-03-31T14:05:09+1',
    '2027-03-31T14:05:09.Z',
    '2027-03-31T14:05:0',
    '2027/03/31T14:05',
    'x',
  ])('not "%s"', (text) => expect(read('iso', text).micros).toBeNaN())
  test('keeps microseconds', () => {
    expect(read('iso', '2027-03-31T14:05:09.123456Z').micros).toBe(micros('2027-03-31T14:05:09Z') + 123_456)
  })
})

test('counts from 1970', () => {
  expect(read('epoch-s', '1806501909.5')).toEqual({ micros: 1_806_501_909_500_000, statesOffset: true })
  expect(read('epoch-ms', '1806501909123').micros).toBe(1_806_501_909_123_000)
  expect(read('epoch-s', '12:00').micros).toBeNaN()
})

test('every instant written by a pattern is read back, in any order of days', () => {
  const compiled = compileTimePattern('yyyy-MM-dd HH:mm:ss')
  if (!compiled.ok) throw new Error('the pattern must compile')
  const reader = compiled.value
  const seconds = fc.integer({ min: Date.UTC(1970) / 1000, max: Date.UTC(2100) / 1000 })
  fc.assert(
    fc.property(seconds, (second) => {
      const text = new Date(second * 1000).toISOString().slice(0, 19).replace('T', ' ')
      const bytes = new TextEncoder().encode(text)
      expect(reader.read(bytes, 0, bytes.length)).toBe(second * 1e6)
    }),
    { seed: 5, numRuns: 5000 },
  )
})

test('days of a spreadsheet, on the clock of the wall', () => {
  expect(read('serial', '45292.5')).toEqual({ micros: micros('2024-01-01T12:00:00Z'), statesOffset: false })
  // 01:00 as fifteen digits give it.
  expect(read('serial', '45292,0416666667').micros).toBe(micros('2024-01-01T01:00:00Z'))
  expect(read('serial', '61').micros).toBe(micros('1900-03-01T00:00:00Z'))
  for (const text of ['60', '59.5', '-3', '2024-01-01', '']) expect(read('serial', text).micros).toBeNaN()
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { formatInstant, parseInstant } from '#domain/site/instant-text.ts'

test('RFC 3339 with Z or an offset', () => {
  const expected = Date.UTC(2027, 2, 14, 8)
  for (const text of [
    '2027-03-14T08:00:00Z',
    '2027-03-14T07:00:00-01:00',
    '2027-03-14t13:30:00.000+05:30',
    '2027-03-14 08:00:00z',
  ])
    expect(parseInstant(text)).toBe(expected)
  expect(parseInstant('2027-03-14T08:00:00.5Z')).toBe(expected + 500)
  expect(parseInstant('2028-02-29T00:00:00Z')).toBe(Date.UTC(2028, 1, 29))
})

test('days, times and offsets that do not exist, and texts that leave something out, are refused', () => {
  for (const text of [
    '2027-02-29T00:00:00Z',
    '2027-04-31T00:00:00Z',
    '2027-13-01T00:00:00Z',
    '2027-00-10T00:00:00Z',
    '2027-01-00T00:00:00Z',
    '2027-01-01T24:00:00Z',
    '2027-01-01T00:60:00Z',
    '2027-01-01T23:59:60Z',
    '2027-01-01T00:00:00+24:00',
    '2027-01-01T00:00:00+01:75',
    '2027-01-01T00:00:00',
    '2027-01-01',
    '2027-01-01T00:00Z',
    '2027-1-1T00:00:00Z',
    '1900-02-29T00:00:00Z',
    '2027-01-01T00:00:00.0001Z',
    '2027-01-01T00:00:00Z ',
    '',
    'yesterday',
  ])
    expect([text, parseInstant(text)]).toEqual([text, null])
})

test('written and read back, years 0000 to 9999', () => {
  fc.assert(
    fc.property(fc.integer({ min: -62_167_219_200_000, max: 253_402_300_799_999 }), (epochMs) => {
      expect(parseInstant(formatInstant(epochMs))).toBe(epochMs)
    }),
    { seed: 8 },
  )
  expect(formatInstant(0)).toBe('1970-01-01T00:00:00Z')
})

import { describe, expect, it } from 'vitest'
import { parseByteRange } from '../../../api/routes/byte-range.ts'

// RFC 9110 section 14.1.2, examples for a representation of 10000 bytes.
describe('byte ranges of RFC 9110', () => {
  it.each([
    ['bytes=0-499', { start: 0, end: 499 }],
    ['bytes=500-999', { start: 500, end: 999 }],
    ['bytes=-500', { start: 9500, end: 9999 }],
    ['bytes=9500-', { start: 9500, end: 9999 }],
    ['bytes=0-0', { start: 0, end: 0 }],
    ['bytes=0-20000', { start: 0, end: 9999 }],
    ['bytes=-20000', { start: 0, end: 9999 }],
    ['bytes=10000-', 'unsatisfiable'],
    ['bytes=-0', 'unsatisfiable'],
    ['bytes=500-499', undefined],
    ['bytes=0-0,-1', undefined],
    ['items=0-5', undefined],
    ['bytes=-', undefined],
    [undefined, undefined],
  ])('%s', (header, expected) => {
    expect(parseByteRange(header, 10000)).toEqual(expected)
  })

  it('satisfies no range of an empty file', () => {
    expect(parseByteRange('bytes=-5', 0)).toBe('unsatisfiable')
    expect(parseByteRange('bytes=0-', 0)).toBe('unsatisfiable')
  })
})

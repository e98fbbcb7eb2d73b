import { describe, expect, it } from 'vitest'
import { agreedMediaType } from '../../../api/field/agreed-media-type.ts'

const bytes = (hex: string) => Uint8Array.from(Buffer.from(hex.replaceAll(' ', ''), 'hex'))
const none = 'application/octet-stream'

// Smallest beginnings as the named standards print them.
const beginnings: readonly (readonly [string, string, string])[] = [
  ['image/jpeg', 'ff d8 ff e0 00 10 4a 46 49 46 00 01', 'ISO/IEC 10918-1 and -5 (JFIF)'],
  ['image/png', '89 50 4e 47 0d 0a 1a 0a 00 00 00 0d', 'PNG, W3C, section 5.2'],
  ['image/webp', '52 49 46 46 24 00 00 00 57 45 42 50', 'RFC 9649, section 2.4'],
  ['application/pdf', '25 50 44 46 2d 31 2e 37 0a 25 e2 e3', 'ISO 32000-1, 7.5.2'],
]

describe('the media type of an attachment', () => {
  it.each(beginnings)('%s stands where the bytes begin so (%s, %s)', (type, hex) => {
    expect(agreedMediaType(type, bytes(hex))).toBe(type)
  })

  it('does not stand for bytes of another type, of none, or of too few', () => {
    for (const [type] of beginnings) {
      for (const [other, hex] of beginnings)
        if (other !== type) expect(agreedMediaType(type, bytes(hex))).toBe(none)
      expect(agreedMediaType(type, Buffer.from('<svg onload='))).toBe(none)
      expect(agreedMediaType(type, bytes('ff d8'))).toBe(none)
      expect(agreedMediaType(type, bytes(''))).toBe(none)
    }
  })

  it('is not judged where nothing is known of how it begins', () => {
    for (const type of ['text/csv', 'application/zip', 'toString', '__proto__'])
      expect(agreedMediaType(type, Buffer.from('anything'))).toBe(type)
  })
})

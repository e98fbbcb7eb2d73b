import { expect, test } from 'vitest'
import { quality, qualitySentences } from '#domain/reduction/quality.ts'

test('bits are distinct and fit one byte', () => {
  const bits = Object.values(quality)
  expect(bits.reduce((sum, bit) => sum | bit, 0)).toBe(bits.reduce((sum, bit) => sum + bit, 0))
  expect(Math.max(...bits)).toBeLessThan(256)
  for (const bit of bits) expect(Math.log2(bit) % 1).toBe(0)
})

test('every bit has its sentence, none has none', () => {
  expect(qualitySentences(0)).toEqual([])
  expect(new Set(qualitySentences(255)).size).toBe(8)
  expect(qualitySentences(quality.incomplete + quality.barometerMissing)).toHaveLength(2)
})

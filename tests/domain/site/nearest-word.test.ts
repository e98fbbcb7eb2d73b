import { expect, test } from 'vitest'
import { nearestWord } from '#domain/site/nearest-word.ts'

test('finds the word meant, whatever the slip', () => {
  const kinds = ['piezometer', 'extensometer', 'tiltmeter', 'barometer']
  expect(nearestWord('Piezometer', kinds)).toBe('piezometer')
  expect(nearestWord('peizometer', kinds)).toBe('piezometer')
  expect(nearestWord('tiltmetre', kinds)).toBe('tiltmeter')
  expect(nearestWord('PZ-01B', ['PZ-01A', 'PZ-11A', 'EX-01'])).toBe('PZ-01A')
})

test('says nothing where no word is near', () => {
  expect(nearestWord('inclinometer casing', ['wall', 'tunnel'])).toBeNull()
  expect(nearestWord('xy', ['ab'])).toBeNull()
  expect(nearestWord('anything', [])).toBeNull()
})

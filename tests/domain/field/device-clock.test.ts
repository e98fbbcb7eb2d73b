import { expect, test } from 'vitest'
import { ownClockSentence } from '#domain/field/device-clock.ts'

test('a device is told of its own wrong clock, within ten minutes of nothing', () => {
  expect(ownClockSentence(null)).toBeNull()
  expect(ownClockSentence(600_000)).toBeNull()
  expect(ownClockSentence(86_400_000)).toContain('24 hours ahead of the server')
  expect(ownClockSentence(-86_400_000)).toContain('24 hours behind the server')
})

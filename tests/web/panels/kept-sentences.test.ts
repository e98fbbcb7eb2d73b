import { expect, test } from 'vitest'
import { guideAgeSentence } from '../../../web/panels/field/guide-age-sentence.ts'
import { keptPartsSentence } from '../../../web/panels/kept-parts-sentence.ts'

const noon = Date.UTC(2027, 5, 1, 12)
const hourMs = 3_600_000

test('what is kept is named with its day, and whether newer ones are on their way', () => {
  const parts = [{ part: 'records' as const, keptAtEpochMs: noon }]
  expect(keptPartsSentence(parts, true)).toMatch(
    /^Records \(levels, wiring, calibrations\): as kept on this device on 1 Jun 2027, .*; newer ones are being fetched\./,
  )
  expect(keptPartsSentence(parts, false)).toContain('newer ones come when the server answers')
  const two = [...parts, { part: 'readings' as const, keptAtEpochMs: noon + 1000 }]
  expect(keptPartsSentence(two, false).match(/as kept on this device/g)).toHaveLength(1)
})

test('the guide says from when it is unless it is of today and of the server', () => {
  expect(guideAgeSentence(noon - 5 * hourMs, false, noon, 'UTC')).toBeNull()
  expect(guideAgeSentence(noon - 13 * hourMs, false, noon, 'UTC')).toContain('Mon 31 May 2027 23:00')
  expect(guideAgeSentence(noon - 5 * hourMs, true, noon, 'UTC')).toContain('as kept on this device')
})

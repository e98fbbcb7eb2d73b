import { expect, test } from 'vitest'
import type { FieldGuide } from '#contract/field-guide.ts'
import { entrySentence } from '../../../../web/panels/field/entry-sentence.ts'

const guide = {
  site: 'here',
  sensors: [{ id: 'WS-01/water-level', rawUnit: 'm' }],
} as unknown as FieldGuide
const reading = (site: string, sensor: string) => ({
  site,
  body: { kind: 'reading' as const, sensor, atEpochMs: 0, raw: 4.31, confirmedBecause: null },
  attachments: [],
})

test('a reading is told with its raw unit where the guide of its own site knows it', () => {
  expect(entrySentence(reading('here', 'WS-01/water-level'), guide)).toBe(
    'Reading of WS-01/water-level: 4.31 m',
  )
  expect(entrySentence(reading('here', 'WS-02/water-level'), guide)).toBe(
    'Reading of WS-02/water-level: 4.31',
  )
  expect(entrySentence(reading('there', 'WS-01/water-level'), guide)).toBe(
    'Reading of WS-01/water-level: 4.31',
  )
  expect(entrySentence(reading('here', 'WS-01/water-level'), null)).toBe('Reading of WS-01/water-level: 4.31')
})

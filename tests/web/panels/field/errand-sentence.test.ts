import { expect, test } from 'vitest'
import type { Errand } from '#domain/field/due-work.ts'
import { errandSentence } from '../../../../web/panels/field/errand-sentence.ts'

const errand = (more: Partial<Errand>): Errand => ({
  instrument: 'WS-01',
  kind: 'read-by-hand',
  urgency: 0,
  sensors: ['WS-01/water-level'],
  dueAtEpochMs: null,
  criticalWithoutData: false,
  ...more,
})
const said = (more: Partial<Errand>) => errandSentence(errand(more), Date.UTC(2027, 5, 1, 12), 'UTC')

test('what is critical and without current data is told first, read by hand or not', () => {
  expect(said({})).toBe('WS-01: to be read by hand, never read yet')
  expect(said({ criticalWithoutData: true })).toBe(
    'WS-01: critical, no current data: to be read by hand, never read yet',
  )
  expect(said({ criticalWithoutData: true, dueAtEpochMs: Date.UTC(2027, 5, 1, 6) })).toMatch(
    /^WS-01: critical, no current data: to be read by hand, overdue by 6 h/,
  )
})

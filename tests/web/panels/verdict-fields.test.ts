import { expect, test } from 'vitest'
import {
  draftOfVerdict,
  fieldOfIssue,
  nothingFound,
  stretchFields,
  stretchOfDraft,
} from '../../../web/panels/verdict-fields.ts'

const zone = 'Europe/London'
const stretch = { fromEpochMs: Date.UTC(2027, 6, 1, 6), untilEpochMs: Date.UTC(2027, 6, 1, 12) }
const fields = {
  series: 'A/x',
  ...stretchFields(stretch, zone),
  verdict: 'doubtful',
  reason: 'why',
  alternatives: 'none',
  author: 'A. Tester',
  ...nothingFound,
} as const

test('a stretch goes into fields in site time and comes back', () => {
  expect(fields.from).toBe('2027-07-01T07:00')
  expect(draftOfVerdict(fields, zone)).toMatchObject(stretch)
})

test('one reading is the minute that begins with it; without an end it is looked at to the end of the record', () => {
  const minute = draftOfVerdict({ ...fields, lasting: 'minute' }, zone)
  expect((minute.untilEpochMs ?? 0) - (minute.fromEpochMs ?? 0)).toBe(60_000)
  const on = draftOfVerdict({ ...fields, lasting: 'on' }, zone)
  expect(on.untilEpochMs).toBeNull()
  expect(stretchOfDraft(on, stretch.untilEpochMs + 5)?.untilEpochMs).toBe(stretch.untilEpochMs + 5)
})

test('an end that is not later is looked at as nothing, and sent for the server to name', () => {
  const reversed = draftOfVerdict({ ...fields, until: fields.from, verdict: '' }, zone)
  expect(stretchOfDraft(reversed, 0)).toBeNull()
  expect(reversed).toMatchObject({ untilEpochMs: stretch.fromEpochMs, verdict: null })
  expect(draftOfVerdict({ ...fields, until: '' }, zone).untilEpochMs).toBe(stretch.fromEpochMs)
  expect([fieldOfIssue('untilEpochMs'), fieldOfIssue('site')]).toEqual(['until', null])
})

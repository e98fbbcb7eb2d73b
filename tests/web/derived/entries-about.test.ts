import { expect, test } from 'vitest'
import { entriesAbout } from '../../../web/derived/entries-about.ts'
import { fieldEntry, note } from '../../support/field-entries.ts'

test('an instrument is told its own notes and readings, and nobody else’s', () => {
  const reading = {
    kind: 'reading',
    sensor: 'PZ-01A/pore-pressure',
    atEpochMs: 0,
    raw: 1,
    confirmedBecause: null,
  } as const
  const entries = [
    note('the lid is gone', 'PZ-01'),
    note('wet', 'PZ-010'),
    note('a place'),
    reading,
    { ...reading, sensor: 'PZ-02/pore-pressure' },
  ].map((body, i) => ({ entry: fieldEntry(i + 1, body, { site: 'here' }) }))
  const found = entriesAbout({ id: 'PZ-01', points: ['PZ-01A', 'PZ-01B'] }, entries)
  expect(found.map(({ entry }) => entry.sequence)).toEqual([1, 4])
})

import { expect, test } from 'vitest'
import { beginDraft, draftFault, manifestOf } from '../../../../web/panels/reports/report-draft.ts'
import { manifestFor } from '../../../support/report-manifest.ts'

const zone = 'Atlantic/Azores'
const at = Date.UTC(2027, 10, 3, 12)

test('a report begins with the last whole period of the site', () => {
  // The Azores went back to UTC−1 on 31 October 2027 (IANA): October began at UTC and ended an hour behind it.
  expect(beginDraft('monthly', at, zone)).toMatchObject({
    from: '2027-10-01T00:00',
    until: '2027-11-01T00:00',
  })
  const frozen = {
    id: 'f'.repeat(16),
    site: 'small-quay',
    cutOffEpochMs: at,
    frozenAtEpochMs: at,
    frozenBy: 'A',
    revision: 1,
    software: '0.2.0',
    readings: { all: 1, provisional: 1 },
    parts: [],
  }
  const draft = { ...beginDraft('monthly', at, zone), statement: ' Nothing moved. ' }
  const signed = { author: ' Ada Marsh ', atEpochMs: at, timeZone: zone }
  const manifest = manifestOf(draft, frozen, { reports: [], software: '0.3.0' }, signed)
  expect(manifest).toMatchObject({
    number: 1,
    fromEpochMs: Date.UTC(2027, 9, 1),
    untilEpochMs: Date.UTC(2027, 10, 1, 1),
    statement: { text: 'Nothing moved.', author: 'Ada Marsh' },
    // What composes it, not what froze its data.
    software: '0.3.0',
    previousFrozenSet: null,
  })
  const last = { id: 1, manifest: manifestFor(), files: [], issuedBy: 'A', issuedAtEpochMs: at }
  expect(manifestOf(draft, frozen, { reports: [last], software: '0.3.0' }, signed)).toMatchObject({
    number: 2,
    previousNumber: 1,
    previousFrozenSet: manifestFor().frozenSet,
    previousUntilEpochMs: manifestFor().untilEpochMs,
  })
})

test('what cannot be used is told by its field', () => {
  const draft = { ...beginDraft('weekly', at, zone), statement: 'Nothing moved.' }
  expect(draftFault(draft, zone)).toBeNull()
  expect(draftFault({ ...draft, statement: ' ' }, zone)?.field).toBe('statement')
  expect(draftFault({ ...draft, from: '' }, zone)?.field).toBe('from')
  expect(draftFault({ ...draft, until: draft.from }, zone)?.field).toBe('until')
  expect(draftFault({ ...draft, cutOff: draft.from }, zone)?.field).toBe('cutOff')
  expect(draftFault({ ...draft, cutOff: draft.until }, zone)).toBeNull()
})

import { expect, test } from 'vitest'
import { type AuditEntry, auditActions } from '#domain/audit/audit-entry.ts'
import { proposalKinds, subjectOfProposal } from '#domain/proposals/proposal-kinds.ts'
import { siteTables } from '#domain/site/tables.ts'
import { entrySentence, subjectName } from '../../../../web/panels/audit/entry-words.ts'
import { subjectPlace } from '../../../../web/panels/audit/subject-place.ts'
import { smallSite } from '../../state/small-site.ts'

const entry = (given: Partial<AuditEntry>): AuditEntry => ({
  number: 1,
  site: 'small',
  atEpochMs: 0,
  account: null,
  name: 'A. Reed',
  action: 'changed',
  subjectKind: 'triggerLevels',
  subjectKey: 'TL-4',
  version: 2,
  before: null,
  after: null,
  why: '',
  ...given,
})

test('an entry is told in words', () => {
  expect(entrySentence(entry({}))).toBe('Trigger level TL-4, version 2: changed')
  expect(entrySentence(entry({ action: 'made', version: 1 }))).toBe('Trigger level TL-4: made')
  expect(
    entrySentence(
      entry({ subjectKind: 'calibrationSteps', subjectKey: '["CAL-1",2]', action: 'made', version: 1 }),
    ),
  ).toBe('Calibration step CAL-1, 2: made')
  expect(
    entrySentence(entry({ subjectKind: 'batch', subjectKey: '7', action: 'taken', version: null })),
  ).toBe('File, batch 7: taken in')
  // What later parts record has words of its own, or readable ones.
  expect(subjectName('dutyRoster')).toBe('Duty roster')
})

test('every action and every table has words', () => {
  for (const action of auditActions) expect(entrySentence(entry({ action }))).toMatch(/: \S/)
  for (const kind of Object.keys(siteTables)) expect(subjectName(kind)).toMatch(/^[A-Z][a-z ]+$/)
})

test('the way to a record is by what its row names, if that is still there', () => {
  const site = smallSite()
  const [point] = site.points
  const [instrument] = site.instruments
  const place = (given: Partial<AuditEntry>) => subjectPlace(entry(given), site)
  expect(place({ after: JSON.stringify({ series: `${point?.id}/pore-pressure` }) })).toEqual({
    tab: 'record',
    instrument: null,
    point: point?.id,
  })
  expect(
    place({ subjectKind: 'verdicts', after: JSON.stringify({ series: `${point?.id}/pore-pressure` }) })?.tab,
  ).toBe('history')
  expect(place({ subjectKind: 'instruments', subjectKey: instrument?.id ?? '' })?.instrument).toBe(
    instrument?.id,
  )
  expect(place({ subjectKind: 'batch' })?.tab).toBe('imports')
  for (const kind of proposalKinds)
    expect(place({ subjectKind: subjectOfProposal(kind), subjectKey: '1' }), kind).not.toBeNull()
  expect(place({ after: JSON.stringify({ series: 'GONE-1/pore-pressure' }) })).toBeNull()
  expect(place({ subjectKind: 'facts', after: 'no JSON' })).toBeNull()
})

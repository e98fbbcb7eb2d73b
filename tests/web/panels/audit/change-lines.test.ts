import { expect, test } from 'vitest'
import { changeLines } from '../../../../web/panels/audit/change-lines.ts'

const lines = (subjectKind: string, before: unknown, after: unknown) =>
  changeLines(
    {
      subjectKind,
      before: before === null ? null : JSON.stringify(before),
      after: after === null ? null : JSON.stringify(after),
    },
    'Atlantic/Azores',
  )

test('what differs is told with its unit, before and after; what stayed is not', () => {
  expect(
    lines(
      'stages',
      { id: 'dig', formationLevelMetres: -2, name: 'dig' },
      { id: 'dig', formationLevelMetres: -3, name: 'dig' },
    ),
  ).toEqual([{ name: 'formation level, m', before: '−2', after: '−3' }])
})

test('instants are in the zone of the site, by the column of the table or the name of the value', () => {
  // Azores are an hour behind UTC in winter (IANA time zone database).
  const atEpochMs = Date.UTC(2027, 1, 1, 12)
  expect(lines('stages', null, { startsAt: atEpochMs })[0]?.after).toBe('Mon 1 Feb 2027 11:00 UTC−01:00')
  expect(lines('invitation', null, { expiresAtEpochMs: atEpochMs })[0]).toEqual({
    name: 'expires at',
    before: null,
    after: 'Mon 1 Feb 2027 11:00 UTC−01:00',
  })
})

test('a value that came, went or was empty is told as nothing', () => {
  expect(lines('instruments', { note: 'bent' }, { note: null })).toEqual([
    { name: 'note', before: 'bent', after: null },
  ])
  expect(lines('instruments', { critical: true }, { critical: false })).toEqual([
    { name: 'critical', before: 'yes', after: 'no' },
  ])
  expect(lines('instruments', null, null)).toEqual([])
})

test('orders of rows, long texts and what is no JSON are told short', () => {
  expect(lines('order', ['a', 'b'], ['a', 'b', 'c'])).toEqual([
    { name: 'rows', before: '2', after: '3' },
    { name: 'in order', before: 'a, b', after: 'a, b, c' },
  ])
  expect(lines('works', null, { geometry: { at: 'x'.repeat(900) } })[0]?.after).toMatch(
    /… \(9\d\d characters\)$/,
  )
  expect(changeLines({ subjectKind: 'works', before: null, after: '{"half' }, 'UTC')).toEqual([
    { name: 'text', before: null, after: '{"half' },
  ])
})

import { describe, expect, it, test } from 'vitest'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings = {
  'contacts.csv': 'id,name,email,account,webhooks,note',
  'duty-shifts.csv': 'id,duty,contact,order,zone,weekdays,fromTime,untilTime,onHolidays,validFrom,validUntil',
  'holidays.csv': 'date,name,zone',
  'escalations.csv': 'duty,step,toDuty,toOrder,undeliveredMinutes,unacknowledgedMinutes',
  'suppressions.csv': 'id,covers,name,fromAt,untilAt,reason,author',
  'suppression-ends.csv': 'suppression,at,author,reason',
}
const sound = {
  'contacts.csv': 'A,A. Reed,a@example.invalid,,,\nB,"=Room, west",,room,site-room; other,answers',
  'duty-shifts.csv':
    'day,Site engineer,A,1,Europe/London,mon-fri,07:00,19:00,not,2027-01-01T00:00:00Z,2028-01-01T00:00:00Z\nnight,Site engineer,B,2,UTC,mon-sun,19:00,07:00,as-usual,2027-01-01T00:00:00Z,',
  'holidays.csv': '2027-12-27,Christmas,Europe/London\n2027-12-27,Christmas,',
  'escalations.csv': 'Site engineer,1,,1,5,15\nSite engineer,2,Site engineer,,5,30',
  'suppressions.csv':
    'S-1,instrument,PZ-1,2027-06-01T00:00:00Z,2027-06-15T00:00:00Z,Flushed,A. Reed\nS-2,series,PZ-1A/pore-pressure,2027-06-01T00:00:00Z,2027-06-02T00:00:00Z,Flushed,A. Reed',
  'suppression-ends.csv': 'S-1,2027-06-03T00:00:00Z,B. Hale,Done',
}

function read(changed: Partial<typeof sound>, fields: readonly string[] = []) {
  const files = smallSite()
  for (const [file, rows] of Object.entries({ ...sound, ...changed }))
    files.set(file, `${headings[file as keyof typeof headings]}\n${rows}\n`)
  files.set('site.csv', [files.get('site.csv')?.trimEnd(), ...fields].join('\n'))
  return readSite(files)
}

describe('who is told', () => {
  it('is read, and written out again', () => {
    const outcome = read({}, ['drillDayOfMonth,5', 'drillTime,10:00', 'drillDuty,Site engineer'])
    if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
    expect(outcome.value.contacts).toMatchObject([{ email: 'a@example.invalid' }, { account: 'room' }])
    expect(outcome.value.facts).toMatchObject({ drillDayOfMonth: 5, drillDuty: 'Site engineer' })
    expect(readSite(writeSite(outcome.value))).toEqual(outcome)
  })

  it('may be left out of a folder', () => {
    const outcome = readSite(smallSite())
    expect(outcome.ok && [outcome.value.contacts, outcome.value.suppressionEnds]).toEqual([[], []])
  })
})

const shift = (cells: string) => `x,Site engineer,A,1,${cells},2027-01-01T00:00:00Z,`
test.each([
  ['contacts.csv', 'A,A. Reed,,,,', 'contact-without-way', 'email'],
  ['contacts.csv', 'A,A. Reed,a at example,,,', 'mail-address-expected', 'email'],
  ['contacts.csv', 'A,A. Reed,"a@x.invalid, b@x.invalid",,,', 'mail-address-expected', 'email'],
  ['contacts.csv', 'A,A. Reed,,,one;one,', 'webhook-repeated', 'webhooks'],
  ['duty-shifts.csv', shift('Europe/Londn,mon-fri,07:00,19:00,not'), 'time-zone-unknown', 'zone'],
  ['duty-shifts.csv', shift('+01:00,mon-fri,07:00,19:00,not'), 'time-zone-unknown', 'zone'],
  ['duty-shifts.csv', shift('UTC,weekdays,07:00,19:00,not'), 'weekdays-expected', 'weekdays'],
  ['duty-shifts.csv', shift('UTC,mon-fri,7:00,19:00,not'), 'time-of-day-expected', 'fromTime'],
  ['duty-shifts.csv', shift('UTC,mon-fri,07:00,24:00,not'), 'time-of-day-expected', 'untilTime'],
  ['duty-shifts.csv', shift('UTC,mon-fri,07:00,19:00,never'), undefined, 'onHolidays'],
  [
    'duty-shifts.csv',
    `${shift('UTC,mon-fri,07:00,19:00,not')}2026-01-01T00:00:00Z`,
    'ends-before-begin',
    'validUntil',
  ],
  [
    'duty-shifts.csv',
    'x,Site engineer,C,1,UTC,mon,07:00,19:00,not,2027-01-01T00:00:00Z,',
    'reference-broken',
    'contact',
  ],
  ['holidays.csv', '27.12.2027,Christmas,', 'date-expected', 'date'],
  ['holidays.csv', '2027-02-30,Never,', 'date-expected', 'date'],
  ['holidays.csv', '2027-12-27,Christmas,London', 'time-zone-unknown', 'zone'],
  ['escalations.csv', 'Site engineer,2,,1,5,15', 'step-missing', 'step'],
  ['escalations.csv', 'Site enginer,1,,1,5,15', 'duty-unknown', 'duty'],
  ['escalations.csv', 'Site engineer,1,Nobody,,5,15', 'duty-unknown', 'toDuty'],
  ['escalations.csv', 'Site engineer,1,,3,5,15', 'order-unknown', 'toOrder'],
  ['escalations.csv', 'Site engineer,1,,1,15,5', 'answer-before-delivery', 'unacknowledgedMinutes'],
  ['escalations.csv', 'Site engineer,1,,1,0,5', undefined, 'undeliveredMinutes'],
  [
    'suppressions.csv',
    'S-1,level,PZ-9,2027-06-01T00:00:00Z,2027-06-02T00:00:00Z,x,A',
    'level-unknown',
    'name',
  ],
  [
    'suppressions.csv',
    'S-1,logger,PZ-1,2027-06-01T00:00:00Z,2027-06-02T00:00:00Z,x,A',
    'logger-unknown',
    'name',
  ],
  ['suppressions.csv', 'S-1,instrument,PZ-1,2027-06-01T00:00:00Z,,x,A', undefined, 'untilAt'],
  [
    'suppressions.csv',
    'S-1,instrument,PZ-1,2027-06-01T00:00:00Z,2027-06-15T00:00:01Z,x,A',
    'suppression-too-long',
    'untilAt',
  ],
  [
    'suppressions.csv',
    'S-1,instrument,PZ-1,2027-06-01T00:00:00Z,2027-06-01T00:00:00Z,x,A',
    'ends-before-begin',
    'untilAt',
  ],
  ['suppression-ends.csv', 'S-1,2027-06-15T00:00:00Z,B,Done', 'ended-already', 'at'],
  ['suppression-ends.csv', 'S-9,2027-06-03T00:00:00Z,B,Done', 'reference-broken', 'suppression'],
] as const)('%s with %s is refused', (file, row, code, column) => {
  const outcome = read({ [file]: row })
  const expected = { file, line: 2, column, ...(code === undefined ? {} : { code }) }
  expect(outcome.ok ? [] : outcome.issues).toContainEqual(expect.objectContaining(expected))
})

test.each([
  [['drillDayOfMonth,5'], 'drill-half-stated'],
  [['drillDayOfMonth,5', 'drillTime,ten', 'drillDuty,Site engineer'], 'time-of-day-expected'],
])('a drill of %o is refused', (fields, code) => {
  const outcome = read({}, fields)
  expect(outcome.ok ? [] : outcome.issues.map((issue) => issue.code)).toContain(code)
})

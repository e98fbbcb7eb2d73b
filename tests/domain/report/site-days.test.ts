import { expect, test } from 'vitest'
import { dayText, instantText, isoDay, siteDay, siteDays, startOfSiteDay } from '#domain/report/site-days.ts'

test('an instant is told by the clocks of the site, in words of our own', () => {
  // 1 March 2027 was a Monday; the Azores keep UTC−1 in winter and UTC in summer (IANA Atlantic/Azores).
  expect(instantText(Date.UTC(2027, 2, 1, 0, 30), 'Atlantic/Azores')).toBe('28 Feb 2027 23:30')
  expect(instantText(Date.UTC(2027, 8, 14, 6, 5), 'Atlantic/Azores')).toBe('14 Sep 2027 06:05')
  expect(dayText(siteDay(Date.UTC(2028, 1, 29, 12), 'UTC'))).toBe('29 Feb 2028')
  expect(isoDay(0)).toBe('1970-01-01')
})

test('a day whose midnight the clocks skip begins with the jump', () => {
  // Cuba went from 00:00 to 01:00 on 10 March 2024 (IANA America/Havana).
  const day = siteDay(Date.UTC(2024, 2, 10, 12), 'America/Havana')
  expect(startOfSiteDay(day, 'America/Havana')).toBe(Date.UTC(2024, 2, 10, 5))
})

test('of many instants the same days are told, over every change of the clocks of a year', () => {
  const zone = 'Europe/Madrid'
  const dayOf = siteDays(zone)
  for (let hour = 0; hour < 366 * 24; hour++) {
    const at = Date.UTC(2027, 0, 1) + hour * 3_600_000
    expect(dayOf(at)).toBe(siteDay(at, zone))
  }
  expect(dayOf(Date.UTC(2027, 0, 1))).toBe(siteDay(Date.UTC(2027, 0, 1), zone))
})

import type { Issue } from '../outcome.ts'
import { contactWays, webhookNames } from '../roster/contact-ways.ts'
import { parseDay, parseTimeOfDay, parseWeekdays } from '../roster/shift-times.ts'
import { cellIssue, type SiteReadings, showInstant } from './site-readings.ts'
import { isTimeZone } from './time-zone.ts'

/** Contacts can be reached, shifts and holidays say when they are. Whether every hour is covered is told, not refused. */
export function checkRoster(
  site: Pick<SiteReadings, 'contacts' | 'dutyShifts' | 'holidays'>,
): readonly Issue[] {
  return [...checkContacts(site), ...checkShifts(site), ...checkHolidays(site)]
}

function checkContacts({ contacts }: Pick<SiteReadings, 'contacts'>): readonly Issue[] {
  return contacts.sound.flatMap(({ line, row }): Issue[] => {
    const issues: Issue[] = []
    if (contactWays(row).length === 0)
      issues.push({
        ...cellIssue('contacts', line, 'email', row.email),
        code: 'contact-without-way',
        expected: 'mail, account or webhook',
        message: `${row.name} cannot be reached in any way. Give an address for mail, an account here, or a webhook.`,
      })
    if (row.email !== null && !/^[^\s@,;<>]+@[^\s@,;<>]+$/.test(row.email))
      issues.push({
        ...cellIssue('contacts', line, 'email', row.email),
        code: 'mail-address-expected',
        expected: 'one address, such as duty@example.invalid',
        message: `"${row.email}" is not one address for mail. Write it as name@host, without brackets; a second address is a second contact.`,
      })
    const names = webhookNames(row.webhooks)
    if (new Set(names).size !== names.length)
      issues.push({
        ...cellIssue('contacts', line, 'webhooks', row.webhooks),
        code: 'webhook-repeated',
        expected: 'each webhook once',
        message: `A webhook stands twice at ${row.name}. Take one away.`,
      })
    return issues
  })
}

function checkShifts({ dutyShifts }: Pick<SiteReadings, 'dutyShifts'>): readonly Issue[] {
  return dutyShifts.sound.flatMap(({ line, row }): Issue[] => {
    const issues: Issue[] = []
    if (!isTimeZone(row.zone)) issues.push(zoneFault('dutyShifts', line, row.zone))
    if (parseWeekdays(row.weekdays) === null)
      issues.push({
        ...cellIssue('dutyShifts', line, 'weekdays', row.weekdays),
        code: 'weekdays-expected',
        expected: 'mon, tue, wed, thu, fri, sat, sun; mon-fri, or sat;sun',
        message: `"${row.weekdays}" names no weekdays. Write mon-fri for a run of days and sat;sun for single ones.`,
      })
    for (const column of ['fromTime', 'untilTime'] as const)
      if (parseTimeOfDay(row[column]) === null)
        issues.push({
          ...cellIssue('dutyShifts', line, column, row[column]),
          code: 'time-of-day-expected',
          expected: 'hours and minutes from 00:00 to 23:59',
          message: `"${row[column]}" is not a time of day. Write hours and minutes, such as 07:00; midnight is 00:00.`,
        })
    if (row.validUntil !== null && row.validUntil <= row.validFrom)
      issues.push({
        ...cellIssue('dutyShifts', line, 'validUntil', showInstant(row.validUntil)),
        code: 'ends-before-begin',
        expected: `later than validFrom, ${showInstant(row.validFrom)}`,
        message: `Shift ${row.id} would end at ${showInstant(row.validUntil)}, not later than it begins, ${showInstant(row.validFrom)}. Correct one of the two, or leave validUntil empty.`,
      })
    return issues
  })
}

function checkHolidays({ holidays }: Pick<SiteReadings, 'holidays'>): readonly Issue[] {
  return holidays.sound.flatMap(({ line, row }): Issue[] => [
    ...(parseDay(row.date) === null
      ? [
          {
            ...cellIssue('holidays', line, 'date', row.date),
            code: 'date-expected',
            expected: 'a date such as 2027-12-25',
            message: `"${row.date}" is not a date. Write year, month and day, such as 2027-12-25.`,
          },
        ]
      : []),
    ...(row.zone === null || isTimeZone(row.zone) ? [] : [zoneFault('holidays', line, row.zone)]),
  ])
}

const zoneFault = (table: 'dutyShifts' | 'holidays', line: number, zone: string): Issue => ({
  ...cellIssue(table, line, 'zone', zone),
  code: 'time-zone-unknown',
  expected: 'UTC, or an IANA zone name such as Atlantic/Azores',
  message: `"${zone}" is not a time zone. Give UTC or an IANA zone name such as Atlantic/Azores.`,
})

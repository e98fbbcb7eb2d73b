import type { Roster } from '#domain/roster/on-duty.ts'
import type { Contact, DutyShift } from '#domain/site/tables.ts'

export const contact = (id: string, change: Partial<Contact> = {}): Contact => ({
  id,
  name: `Person ${id}`,
  email: `${id}@example.invalid`,
  account: null,
  webhooks: null,
  note: null,
  ...change,
})

export const shift = (id: string, change: Partial<DutyShift> = {}): DutyShift => ({
  id,
  duty: 'Monitoring engineer',
  contact: id,
  order: 1,
  zone: 'Europe/London',
  weekdays: 'mon-sun',
  fromTime: '07:00',
  untilTime: '19:00',
  onHolidays: 'as-usual',
  validFrom: Date.UTC(2026, 0, 1),
  validUntil: null,
  ...change,
})

/** A day and a night person in a zone, handing over at 01:30 and 13:30, when clocks change in the night. */
export const roundTheClock = (zone: string): Roster => ({
  contacts: [contact('day'), contact('night')],
  dutyShifts: [
    shift('day', { zone, fromTime: '01:30', untilTime: '13:30' }),
    shift('night', { zone, fromTime: '13:30', untilTime: '01:30' }),
  ],
  holidays: [],
})

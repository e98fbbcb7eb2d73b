import {
  choice,
  instant,
  instantOrNothing,
  number,
  numberOrNothing,
  reference,
  table,
  text,
  textOrNothing,
} from '../column.ts'

export const contacts = table({
  file: 'contacts.csv',
  means: 'people who are told, and how each is reached; never part of what viewers get',
  optional: true,
  key: ['id'],
  columns: {
    id: text('short name, used once'),
    name: text('name of the person, or of the room that answers'),
    email: textOrNothing('address for mail'),
    account: textOrNothing(
      'sign-in name of the account here; messages go to the devices that asked for them',
    ),
    webhooks: textOrNothing('names of webhooks that reach this person, separated by semicolons'),
    note: textOrNothing('anything that whoever reads the roster must know'),
  },
})

export const dutyShifts = table({
  file: 'duty-shifts.csv',
  means: 'who is on for a duty, by weekday and time of day on the clocks of a zone',
  optional: true,
  key: ['id'],
  columns: {
    id: text('short name of the shift'),
    duty: text('what the person is on for, in the words of the owner of a trigger level'),
    contact: reference('who', 'contacts'),
    order: number('1 is told first, 2 and further after that', { min: 1, max: 9, whole: true }),
    zone: text('zone of its times and dates: UTC or an IANA zone name'),
    weekdays: text('days on which it begins: mon-fri, or sat;sun'),
    fromTime: text('time of day at which it begins, 07:00'),
    untilTime: text(
      'time of day at which it ends, on the next day where that is not later; the same as fromTime: a whole day',
    ),
    onHolidays: choice('whether it begins on a holiday too, then not, or then only', [
      'as-usual',
      'not',
      'only',
    ]),
    validFrom: instant('first instant of it'),
    validUntil: instantOrNothing('first instant that it no longer holds, empty while it lasts'),
  },
})

export const holidays = table({
  file: 'holidays.csv',
  means: 'days on which shifts differ',
  optional: true,
  key: ['date', 'zone'],
  columns: {
    date: text('date on the calendar of the shift, 2027-12-25'),
    name: text('what the day is called'),
    zone: textOrNothing('only for shifts of this zone; empty: for all'),
  },
})

export const escalations = table({
  file: 'escalations.csv',
  means:
    'who is told when a duty is needed and nobody could be told, or nobody answers; the last step is repeated',
  optional: true,
  key: ['duty', 'step'],
  columns: {
    duty: text('duty that is needed, as in duty-shifts.csv'),
    step: number('1 is done first', { min: 1, max: 20, whole: true }),
    toDuty: textOrNothing('duty that is told; empty: the same one'),
    toOrder: numberOrNothing('order of the person told; empty: everyone on then', {
      min: 1,
      max: 9,
      whole: true,
    }),
    undeliveredMinutes: number('minutes without anything delivered after which the next step is taken', {
      min: 1,
      max: 1440,
    }),
    unacknowledgedMinutes: number(
      'minutes without acknowledgement after which the next step is taken; of the last step, after which it is repeated',
      { min: 1, max: 1440 },
    ),
  },
})

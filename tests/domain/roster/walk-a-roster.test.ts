import { describe, expect, it } from 'vitest'
import { onDuty, type Roster } from '#domain/roster/on-duty.ts'
import type { DutyShift } from '#domain/site/tables.ts'
import { contact, roundTheClock, shift } from './small-roster.ts'

const minuteMs = 60_000

const numeric = 'numeric'
const parts = {
  year: numeric,
  month: numeric,
  day: numeric,
  hour: numeric,
  minute: numeric,
  second: numeric,
} as const
const clocks = new Map<string, Intl.DateTimeFormat>()

/** What a clock of a zone shows, as 2027-03-28 01:59:00. It is made once a zone, which took most of the time. */
function clockOf(timeZone: string): Intl.DateTimeFormat {
  const made = clocks.get(timeZone) ?? new Intl.DateTimeFormat('sv-SE', { timeZone, ...parts })
  clocks.set(timeZone, made)
  return made
}

/**
 * Who is on, found in another way: a clock is walked minute by minute and read by `Intl.DateTimeFormat`, and a turn is
 * begun and ended by the latest text that the clock has shown so far, so that an hour shown again begins nothing again.
 */
function* walk(roster: Roster, fromEpochMs: number, untilEpochMs: number) {
  const shown = new Map<string, string>()
  for (let at = fromEpochMs - 2 * 1440 * minuteMs; at < untilEpochMs; at += minuteMs) {
    const on: string[] = []
    for (const zone of new Set(roster.dutyShifts.map((one) => one.zone))) {
      const text = clockOf(zone).format(at).slice(0, 16)
      if (text > (shown.get(zone) ?? '')) shown.set(zone, text)
      const now = shown.get(zone) ?? ''
      for (const one of roster.dutyShifts)
        if (one.zone === zone && [-1, 0].some((days) => covers(one, roster, now, days))) on.push(one.id)
    }
    if (at >= fromEpochMs) yield { at, on: on.sort() }
  }
}

const names = ['sun', 'mon', 'tue', 'wed', 'thu', 'fri', 'sat']
const dateAfter = (date: string, days: number) =>
  new Date(Date.parse(`${date}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10)

function covers(one: DutyShift, roster: Roster, now: string, days: number): boolean {
  const date = dateAfter(now.slice(0, 10), days)
  const [first = '', last = first] = one.weekdays.split('-')
  const order = [...names.slice(1), 'sun']
  const name = names[new Date(`${date}T12:00:00Z`).getUTCDay()] ?? ''
  if (order.indexOf(name) < order.indexOf(first) || order.indexOf(name) > order.indexOf(last)) return false
  const isHoliday = roster.holidays.some((day) => day.date === date)
  if (one.onHolidays === 'not' && isHoliday) return false
  if (one.onHolidays === 'only' && !isHoliday) return false
  const end = one.untilTime > one.fromTime ? date : dateAfter(date, 1)
  return now >= `${date} ${one.fromTime}` && now < `${end} ${one.untilTime}`
}

function compare(roster: Roster, from: string, days: number): number {
  let changes = 0
  let before = ''
  for (const { at, on } of walk(roster, Date.parse(from), Date.parse(from) + days * 86_400_000)) {
    const found = onDuty(roster, 'Monitoring engineer', at).map((one) => one.shift)
    expect(found.sort(), new Date(at).toISOString()).toEqual(on)
    if (String(on) !== before) changes++
    before = String(on)
  }
  return changes
}

describe('a clock that walks a roster minute by minute', () => {
  it.each([
    ['Europe/London', '2027-03-26T12:00:00Z'],
    ['Europe/London', '2026-10-23T12:00:00Z'],
    ['America/New_York', '2026-03-06T12:00:00Z'],
    ['America/New_York', '2027-11-05T12:00:00Z'],
    ['Australia/Lord_Howe', '2027-04-02T12:00:00Z'],
    ['Australia/Lord_Howe', '2027-10-01T12:00:00Z'],
  ])('finds the same people as a walk by what clocks show: %s from %s', (zone, from) => {
    expect(compare(roundTheClock(zone), from, 4)).toBeGreaterThanOrEqual(8)
  })

  it('and through nights, a week-end and a holiday', () => {
    const roster: Roster = {
      contacts: [contact('a'), contact('b'), contact('c'), contact('d')],
      dutyShifts: [
        shift('a', { weekdays: 'mon-fri', onHolidays: 'not' }),
        shift('b', { weekdays: 'mon-fri', fromTime: '19:00', untilTime: '07:00' }),
        shift('c', { weekdays: 'sat-sun', fromTime: '07:00', untilTime: '07:00' }),
        shift('d', { onHolidays: 'only', fromTime: '06:45', untilTime: '19:15' }),
      ],
      holidays: [{ date: '2027-08-30', name: 'Late summer holiday', zone: null }],
    }
    expect(compare(roster, '2027-08-26T00:00:00Z', 7)).toBeGreaterThan(12)
  })
})

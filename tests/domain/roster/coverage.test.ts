import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { coverageHoles, coverageMs } from '#domain/roster/coverage.ts'
import { holeSentence } from '#domain/roster/hole-sentence.ts'
import { onDuty, type Roster } from '#domain/roster/on-duty.ts'
import { contact, roundTheClock, shift } from './small-roster.ts'

const duty = 'Monitoring engineer'
const zone = 'Europe/London'
const from = Date.parse('2027-03-01T00:00:00Z')
const sentences = (roster: Roster, fromEpochMs = from, lengthMs = 3 * 86_400_000) =>
  coverageHoles(roster, duty, fromEpochMs, fromEpochMs + lengthMs).map((hole) => holeSentence(hole, zone))

describe('coverage of a roster', () => {
  it.each(['Europe/London', 'America/New_York', 'Australia/Lord_Howe'])(
    'of two people who hand over at times that clocks skip and repeat has no hole in two years: %s',
    (where) => {
      const start = Date.parse('2026-02-01T00:00:00Z')
      for (let week = 0; week < 104; week += 8)
        expect(
          coverageHoles(
            roundTheClock(where),
            duty,
            start + week * 7 * 86_400_000,
            start + week * 7 * 86_400_000 + coverageMs,
          ),
        ).toEqual([])
    },
  )

  it('tells a hole at three in the morning', () => {
    const roster = {
      contacts: [contact('day'), contact('night')],
      dutyShifts: [
        shift('day', { fromTime: '05:00', untilTime: '19:00' }),
        shift('night', { fromTime: '19:00', untilTime: '03:00' }),
      ],
      holidays: [],
    }
    expect(sentences(roster).slice(0, 2)).toEqual([
      'Nobody is on for Monitoring engineer from Mon 1 Mar 03:00 to 05:00.',
      'Nobody is on for Monitoring engineer from Tue 2 Mar 03:00 to 05:00.',
    ])
  })

  it('tells the hour that a fixed clock leaves open when the other one changes', () => {
    const roster = {
      contacts: [contact('day'), contact('night')],
      dutyShifts: [
        shift('day', { zone: 'UTC', fromTime: '07:00', untilTime: '19:00' }),
        shift('night', { fromTime: '19:00', untilTime: '07:00' }),
      ],
      holidays: [],
    }
    expect(sentences(roster, Date.parse('2027-03-27T12:00:00Z'), 86_400_000)).toEqual([
      'Nobody is on for Monitoring engineer from Sun 28 Mar 07:00 to 08:00.',
    ])
  })

  it('names offsets where the clocks change within a hole', () => {
    const roster = { ...roundTheClock(zone), dutyShifts: [shift('day')] }
    expect(sentences(roster, Date.parse('2027-10-30T12:00:00Z'), 86_400_000)[0]).toBe(
      'Nobody is on for Monitoring engineer from Sat 30 Oct 19:00 (UTC+01:00) to Sun 31 Oct 07:00 (UTC+00:00).',
    )
  })

  it('tells a holiday on which the day person is off', () => {
    const roster = {
      contacts: [contact('day'), contact('night')],
      dutyShifts: [
        shift('day', { onHolidays: 'not' }),
        shift('night', { fromTime: '19:00', untilTime: '07:00' }),
      ],
      holidays: [
        { date: '2027-03-02', name: 'Day of the quay', zone: 'Europe/London' },
        { date: '2027-03-03', name: 'Elsewhere', zone: 'America/New_York' },
      ],
    }
    expect(sentences(roster)).toEqual(['Nobody is on for Monitoring engineer from Tue 2 Mar 07:00 to 19:00.'])
  })

  it('counts neither whoever is asked second, nor whoever has an account only', () => {
    const whole = { fromTime: '00:00', untilTime: '00:00' }
    const second = {
      contacts: [contact('a')],
      dutyShifts: [shift('a', { ...whole, order: 2 })],
      holidays: [],
    }
    expect(coverageHoles(second, duty, from, from + 9)).toMatchObject([{ because: 'nobody' }])
    const account = {
      contacts: [contact('a', { email: null, account: 'a' })],
      dutyShifts: [shift('a', whole)],
      holidays: [],
    }
    expect(coverageHoles(account, duty, from, from + 9)).toMatchObject([{ because: 'unreachable' }])
    expect(sentences(account)[0]).toMatch(/neither mail nor webhook/)
  })

  it('of a duty without shifts is one hole', () => {
    const holes = coverageHoles({ contacts: [], dutyShifts: [], holidays: [] }, duty, from, from + coverageMs)
    expect(holes).toEqual([{ duty, fromEpochMs: from, untilEpochMs: from + coverageMs, because: 'nobody' }])
  })

  it('agrees with who is on at any minute', () => {
    const times = fc.constantFrom('00:00', '01:30', '07:00', '13:00', '19:00', '23:30')
    const days = fc.constantFrom('mon-fri', 'sat;sun', 'mon-sun', 'wed')
    const shifts = fc.array(fc.tuple(times, times, days), { maxLength: 4 })
    fc.assert(
      fc.property(shifts, fc.integer({ min: 0, max: 9 * 1440 }), (list, minutes) => {
        const roster = {
          contacts: [contact('a')],
          dutyShifts: list.map(([fromTime, untilTime, weekdays], place) =>
            shift(String(place), { contact: 'a', fromTime, untilTime, weekdays }),
          ),
          holidays: [],
        }
        const start = Date.parse('2027-10-26T00:00:00Z')
        const at = start + minutes * 60_000
        const holes = coverageHoles(roster, duty, start, start + 10 * 86_400_000)
        const inHole = holes.some((hole) => hole.fromEpochMs <= at && at < hole.untilEpochMs)
        expect(inHole).toBe(onDuty(roster, duty, at).length === 0)
      }),
      { seed: 6, numRuns: 200 },
    )
  })
})

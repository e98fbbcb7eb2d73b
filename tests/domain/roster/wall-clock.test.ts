import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { firstInstantShowing, wallReading } from '#domain/roster/wall-clock.ts'

const day = (text: string) => Date.parse(`${text}T00:00:00Z`) / 86_400_000
const at = (text: string) => Date.parse(text)

/**
 * Clock changes by the rules of the IANA time zone database, written out by hand: Europe/London at 01:00 UTC on the last
 * Sundays of March and October; America/New_York at 02:00 local on the second Sunday of March and the first of November;
 * Australia/Lord_Howe by half an hour at 02:00 local on the first Sundays of October and April.
 */
test.each([
  ['Europe/London', '2026-03-29', '01:00', '2026-03-29T01:00:00Z', 'skipped hour'],
  ['Europe/London', '2027-03-28', '01:30', '2027-03-28T01:00:00Z', 'skipped hour'],
  ['Europe/London', '2027-03-28', '02:00', '2027-03-28T01:00:00Z', 'its end'],
  ['Europe/London', '2026-10-25', '01:30', '2026-10-25T00:30:00Z', 'first pass of the repeated hour'],
  ['Europe/London', '2027-10-31', '02:00', '2027-10-31T02:00:00Z', 'after it'],
  ['America/New_York', '2026-03-08', '02:30', '2026-03-08T07:00:00Z', 'skipped hour'],
  ['America/New_York', '2027-03-14', '03:00', '2027-03-14T07:00:00Z', 'its end'],
  ['America/New_York', '2027-11-07', '01:15', '2027-11-07T05:15:00Z', 'first pass'],
  ['America/New_York', '2027-11-07', '02:00', '2027-11-07T07:00:00Z', 'after it'],
  ['Australia/Lord_Howe', '2027-04-04', '01:45', '2027-04-03T14:45:00Z', 'first pass of the half hour'],
  ['Australia/Lord_Howe', '2027-04-04', '02:00', '2027-04-03T15:30:00Z', 'after it'],
  ['Australia/Lord_Howe', '2027-10-03', '02:15', '2027-10-02T15:30:00Z', 'skipped half hour'],
  ['UTC', '2027-10-03', '02:15', '2027-10-03T02:15:00Z', 'no change'],
])('%s %s %s is %s (%s)', (zone, date, time, expected) => {
  const [hours = 0, minutes = 0] = time.split(':').map(Number)
  const found = firstInstantShowing(day(date), hours * 60 + minutes, zone)
  expect(new Date(found).toISOString().replace('.000', '')).toBe(expected)
})

describe('the first instant at which clocks show a time', () => {
  const zones = ['Europe/London', 'America/New_York', 'Australia/Lord_Howe', 'Pacific/Apia', 'Asia/Kathmandu']
  const instants = fc.integer({
    min: at('2011-01-01T00:00:00Z') / 6e4,
    max: at('2030-01-01T00:00:00Z') / 6e4,
  })

  it('is never later than an instant at which they show it, and none before shows as much', () => {
    fc.assert(
      fc.property(fc.constantFrom(...zones), instants, (zone, minutes) => {
        const reading = wallReading(minutes * 6e4, zone)
        const first = firstInstantShowing(reading.day, reading.minute, zone)
        expect(first).toBeLessThanOrEqual(minutes * 6e4)
        const value = reading.day * 1440 + reading.minute
        const before = wallReading(first - 1, zone)
        expect(before.day * 1440 + before.minute).toBeLessThan(value)
      }),
      { seed: 6, numRuns: 300 },
    )
  })
})

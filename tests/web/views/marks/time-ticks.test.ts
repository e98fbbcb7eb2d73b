import { expect, test } from 'vitest'
import { timeTicks } from '../../../../web/views/marks/time-ticks.ts'

const at = (text: string) => Date.parse(text)
const zone = 'Atlantic/Azores'

test('whole hours on the site clock, not of UTC', () => {
  const ticks = timeTicks(at('2027-02-10T00:00Z'), at('2027-02-11T00:00Z'), 9, zone)
  expect(ticks[0]).toMatchObject({ atEpochMs: at('2027-02-10T01:00Z'), text: '10 Feb', strong: true })
  expect(ticks.map((tick) => tick.text)).toContain('15:00')
})

test('the night that summer time ends has twenty-five hours between its midnights', () => {
  const ticks = timeTicks(at('2027-10-29T00:00Z'), at('2027-11-03T00:00Z'), 8, zone)
  const midnight = (text: string) => ticks.find((tick) => tick.text === text)?.atEpochMs ?? 0
  expect(midnight('1 Nov') - midnight('31 Oct')).toBe(25 * 3_600_000)
})

test('months over a record, the year where it begins', () => {
  const ticks = timeTicks(at('2027-02-01T00:00Z'), at('2027-10-31T00:00Z'), 12, zone)
  expect(ticks.map((tick) => tick.text)).toEqual([
    'Feb 2027',
    'Mar',
    'Apr',
    'May',
    'Jun',
    'Jul',
    'Aug',
    'Sep',
    'Oct',
  ])
})

test.each([0.01, 0.2, 1, 5, 30, 100, 400, 4000])('never more than asked for over %d days', (days) => {
  const from = at('2027-03-20T00:00Z')
  const ticks = timeTicks(from, from + days * 86_400_000, 10, zone)
  expect(ticks.length).toBeLessThanOrEqual(16)
  expect(ticks.length).toBeGreaterThan(0)
})

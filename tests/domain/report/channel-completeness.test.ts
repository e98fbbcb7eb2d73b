import { describe, expect, test } from 'vitest'
import { channelCompleteness } from '#domain/report/channel-completeness.ts'

const minute = 60_000
const start = Date.UTC(2027, 8, 1)
const at = (minutes: number) => start + minutes * minute

/** Readings as [minutes after the start, seconds until received (null: soon), value]. */
const readings = (rows: readonly (readonly [number, number | null, number?])[]) => ({
  atEpochMs: Float64Array.from(rows, ([minutes]) => at(minutes)),
  receivedAfterSeconds: Float64Array.from(rows, ([, after]) => after ?? Number.NaN),
  value: Float64Array.from(rows, ([, , value = 1]) => value),
})
const plan = { fromEpochMs: start, untilEpochMs: at(60), intervalMinutes: 10, lateAfterMinutes: 30 }

// Counted by hand: 10-minute readings of one hour are due at :00, :10, :20, :30, :40 and :50.
describe('an hour of six readings', () => {
  test('in time, late, missing and without a value are told apart', () => {
    const came = channelCompleteness(
      readings([
        [0, null],
        [10, 1800],
        [20, 1801],
        [40, null, Number.NaN],
        [50, null],
      ]),
      plan,
    )
    expect(came).toEqual({
      due: 6,
      inTime: 4,
      late: 1,
      missing: 1,
      readings: 5,
      withoutValue: 1,
      share: 5 / 6,
      longestGap: { fromEpochMs: at(20), untilEpochMs: at(50) },
    })
  })

  test('repeats fill no gap, and a clock that is a minute off fills its own place', () => {
    const came = channelCompleteness(
      readings([
        [-1, null],
        [10, null],
        [11, null],
        [12, null],
      ]),
      plan,
    )
    expect(came).toMatchObject({ due: 6, inTime: 2, late: 0, missing: 4, readings: 4 })
  })

  test('a reading that came late and again in time was in time', () => {
    const came = channelCompleteness(
      readings([
        [0, 9000],
        [1, null],
      ]),
      plan,
    )
    expect(came).toMatchObject({ inTime: 1, late: 0, readings: 2 })
  })

  test('silence is one gap as long as the plan, and nothing due has no share', () => {
    expect(channelCompleteness(readings([]), plan)).toMatchObject({
      missing: 6,
      share: 0,
      longestGap: { fromEpochMs: start, untilEpochMs: at(60) },
    })
    expect(channelCompleteness(readings([]), { ...plan, untilEpochMs: start })).toMatchObject({
      due: 0,
      share: null,
      longestGap: null,
    })
  })

  test('what lies beyond the stretch belongs to the next', () => {
    expect(
      channelCompleteness(
        readings([
          [59, null],
          [60, null],
        ]),
        plan,
      ),
    ).toMatchObject({ readings: 0, missing: 6 })
  })
})

test('a week in which the clocks change has as many readings as it has hours', () => {
  // Europe/Madrid, 22 to 28 March 2027: 167 h (Directive 2000/84/EC).
  const week = { fromEpochMs: Date.UTC(2027, 2, 21, 23), untilEpochMs: Date.UTC(2027, 2, 28, 22) }
  const none = readings([])
  expect(channelCompleteness(none, { ...plan, ...week, intervalMinutes: 60 }).due).toBe(167)
})

test('of rounds on foot as many are due as weeks fit in, whenever they came', () => {
  const weekly = { ...plan, untilEpochMs: at(30 * 1440), intervalMinutes: 7 * 1440, lateAfterMinutes: 14_400 }
  const came = channelCompleteness(
    readings([
      [3 * 1440, null],
      [11 * 1440, null],
      [12 * 1440, null],
    ]),
    weekly,
  )
  expect(came).toMatchObject({ due: 4, inTime: 3, missing: 1, readings: 3 })
  const more = readings([1, 2, 3, 4, 5, 6].map((day) => [day * 1440, null] as const))
  expect(channelCompleteness(more, weekly)).toMatchObject({ due: 4, inTime: 4, missing: 0, readings: 6 })
})

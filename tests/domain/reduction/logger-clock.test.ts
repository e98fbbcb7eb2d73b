import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  clockWithin,
  instantsOfStamps,
  stampsOfInstants,
  stampsWithin,
} from '#domain/reduction/clock-reach.ts'
import {
  type ClockSetting,
  clockAt,
  clockRecordAt,
  clockStretches,
  clocksOf,
  instantOfStamp,
} from '#domain/reduction/logger-clock.ts'
import type { LoggerClock } from '#domain/site/tables.ts'

const at = (text: string) => Date.parse(`${text}Z`)
const hourMs = 3_600_000
const dayMs = 24 * hourMs
const row = (version: number, validFrom: number, change: Partial<LoggerClock> = {}): LoggerClock => ({
  logger: 'LG-1',
  version,
  validFrom,
  addedSeconds: 0,
  addedSecondsPerDay: 0,
  author: 'Ada Marsh',
  reason: 'held against the time signal',
  ...change,
})
const settingsOf = (...rows: readonly LoggerClock[]) => clocksOf(rows).get('LG-1') ?? []

describe('a logger whose clock stood off', () => {
  test('has its stamps put right from the record on, and as sent before it', () => {
    const settings = settingsOf(row(1, at('2027-07-01T00:00'), { addedSeconds: -2700 }))
    expect(instantOfStamp(settings, at('2027-06-30T23:00'))).toBe(at('2027-06-30T23:00'))
    expect(instantOfStamp(settings, at('2027-07-01T00:00'))).toBe(at('2027-06-30T23:15'))
  })

  // ISO 8601 calendar arithmetic: 10 days of 1.5 s are 15 s, so that the stamp 12:00:00 stands at 12:01:15.
  test('that drifts has more added for every day', () => {
    const settings = settingsOf(row(1, at('2027-07-01T12:00'), { addedSeconds: 60, addedSecondsPerDay: 1.5 }))
    expect(instantOfStamp(settings, at('2027-07-11T12:00'))).toBe(at('2027-07-11T12:01:15'))
    expect(clockAt(settings, at('2027-07-11T12:00'))).toEqual({ addedSeconds: 75, addedSecondsPerDay: 1.5 })
  })

  test('goes by the highest version of those that begin together, and by the record that began last', () => {
    const rows = [
      row(3, at('2027-07-03T00:00')),
      row(1, at('2027-07-01T00:00'), { addedSeconds: 5 }),
      row(2, at('2027-07-01T00:00'), { addedSeconds: 7 }),
    ]
    expect(settingsOf(...rows).map(({ addedSeconds }) => addedSeconds)).toEqual([7, 0])
    expect(clockRecordAt(rows, 'LG-1', at('2027-07-02T00:00'))?.version).toBe(2)
    expect(clockRecordAt(rows, 'LG-1', at('2027-07-04T00:00'))?.version).toBe(3)
    expect(clockRecordAt(rows, 'LG-1', at('2027-06-04T00:00'))).toBeNull()
    expect(clockRecordAt(rows, 'LG-2', at('2027-07-04T00:00'))).toBeNull()
  })

  test('makes no new setting of what only says again what holds', () => {
    const rows = [row(1, at('2027-07-01T00:00')), row(2, at('2027-07-02T00:00'), { addedSeconds: 4 })]
    expect(settingsOf(...rows, row(3, at('2027-07-05T00:00'), { addedSeconds: 4 }))).toHaveLength(1)
    expect(clocksOf([row(1, 0)]).size).toBe(0)
  })
})

const setting: fc.Arbitrary<ClockSetting> = fc.record({
  fromEpochMs: fc.integer({ min: 0, max: 400 * 24 }).map((hour) => hour * hourMs),
  addedSeconds: fc.integer({ min: -90_000, max: 90_000 }),
  addedSecondsPerDay: fc.oneof(fc.constant(0), fc.double({ min: -600, max: 600, noNaN: true })),
})
const clock = fc
  .uniqueArray(setting, { maxLength: 4, selector: ({ fromEpochMs }) => fromEpochMs })
  .map((all) => all.toSorted((one, other) => one.fromEpochMs - other.fromEpochMs))
const stretch = fc
  .tuple(fc.integer({ min: -dayMs, max: 400 * dayMs }), fc.integer({ min: 1, max: 40 * dayMs }))
  .map(([fromEpochMs, length]) => ({ fromEpochMs, untilEpochMs: fromEpochMs + length }))

describe('of any clock', () => {
  test('every stamp of a stretch stands within the instants that are told of it', () => {
    fc.assert(
      fc.property(
        clock,
        stretch,
        // Its last millisecond often: what is rounded up there is the furthest.
        fc.oneof(fc.constant(1), fc.double({ min: 0, max: 1, noNaN: true })),
        (own, of, share) => {
          const within = Math.floor(share * (of.untilEpochMs - of.fromEpochMs))
          const stamp = Math.min(of.untilEpochMs - 1, of.fromEpochMs + within)
          const told = instantsOfStamps([own], of)
          const instant = instantOfStamp(own, stamp)
          expect(instant).toBeGreaterThanOrEqual(told.fromEpochMs)
          expect(instant).toBeLessThan(told.untilEpochMs)
        },
      ),
    )
  })

  test('every reading that stands within a stretch has its stamp among those that are told', () => {
    fc.assert(
      fc.property(clock, stretch, fc.integer({ min: -2 * dayMs, max: 440 * dayMs }), (own, of, stamp) => {
        const instant = instantOfStamp(own, stamp)
        fc.pre(of.fromEpochMs <= instant && instant < of.untilEpochMs)
        const told = stampsOfInstants([own], of)
        expect(told.fromEpochMs <= stamp && stamp < told.untilEpochMs).toBe(true)
        const parts = clockStretches(own).map((one) => stampsWithin(one, of))
        const holding = parts.filter((one) => one && one.fromEpochMs <= stamp && stamp < one.untilEpochMs)
        expect(holding).toHaveLength(1)
      }),
      { numRuns: 400 },
    )
  })

  test('what a stretch hangs on is told alike only where the same readings stand in it at the same instants', () => {
    fc.assert(
      fc.property(clock, fc.nat(), setting, stretch, (one, place, changed, of) => {
        const other = one.map((own, at) =>
          at === place % one.length ? { ...changed, fromEpochMs: own.fromEpochMs } : own,
        )
        fc.pre(JSON.stringify(clockWithin(one, of)) === JSON.stringify(clockWithin(other, of)))
        const stampsOf = (own: readonly ClockSetting[]) => {
          const { fromEpochMs, untilEpochMs } = stampsOfInstants([one, other], of)
          const found: [number, number][] = []
          for (let stamp = fromEpochMs; stamp < untilEpochMs; stamp += (untilEpochMs - fromEpochMs) / 200) {
            const instant = instantOfStamp(own, Math.floor(stamp))
            if (of.fromEpochMs <= instant && instant < of.untilEpochMs)
              found.push([Math.floor(stamp), instant])
          }
          return found
        }
        expect(stampsOf(one)).toEqual(stampsOf(other))
      }),
      { numRuns: 2000 },
    )
  })

  test('a record that begins after a stretch, and brings nothing into it, leaves what it hangs on as it was', () => {
    const own = settingsOf(row(1, at('2027-03-01T00:00'), { addedSeconds: 30 }))
    const more = settingsOf(
      row(1, at('2027-03-01T00:00'), { addedSeconds: 30 }),
      row(2, at('2027-09-01T00:00'), { addedSeconds: -30 }),
    )
    const july = { fromEpochMs: at('2027-07-01T00:00'), untilEpochMs: at('2027-08-01T00:00') }
    expect(clockWithin(more, july)).toEqual(clockWithin(own, july))
    expect(clockWithin(own, july)).toMatchObject([{ addedSeconds: 30, untilEpochMs: null }])
    const february = { fromEpochMs: at('2027-02-01T00:00'), untilEpochMs: at('2027-02-28T00:00') }
    expect(clockWithin(own, february)).toEqual([])
  })
})

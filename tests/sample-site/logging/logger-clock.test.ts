import { describe, expect, it } from 'vitest'
import { clocksOf, instantOfStamp } from '#domain/reduction/logger-clock.ts'
import { scanTimes } from '../../../sample-site/logging/logger-clock.ts'
import { dayMs, hourMs, programme } from '../../../sample-site/models/programme.ts'

describe('scanTimes', () => {
  it('gains 41 s a day at LG-08 from 10 June, 55 minutes by 30 August, and none once set', () => {
    const { stampEpochMs, trueEpochMs } = scanTimes('LG-08', 60, programme.startsAt)
    const gain = (at: number) => {
      const i = stampEpochMs.indexOf(at)
      return ((stampEpochMs[i] as number) - (trueEpochMs[i] as number)) / 1000
    }
    expect(gain(Date.UTC(2027, 5, 9))).toBe(0)
    expect(gain(Date.UTC(2027, 5, 30)) - gain(Date.UTC(2027, 5, 20))).toBeCloseTo(410, 0)
    expect(gain(Date.UTC(2027, 7, 30, 9))).toBeGreaterThan(54 * 60)
    expect(gain(Date.UTC(2027, 7, 30, 10))).toBe(0)
  })

  it('is put right by what receipts tell of it, 41 s a day taken off until it was set, to a few seconds in 81 days', () => {
    const { stampEpochMs, trueEpochMs } = scanTimes('LG-08', 60, programme.startsAt)
    const row = (version: number, validFrom: number, addedSecondsPerDay: number) => ({
      logger: 'LG-08',
      version,
      validFrom,
      addedSeconds: 0,
      addedSecondsPerDay,
      author: 'test',
      reason: 'test',
    })
    const settings = clocksOf([
      row(1, programme.fastClockFrom, -41),
      row(2, programme.fastClockUntil, 0),
    ]).get('LG-08')
    const apart = [...stampEpochMs].map((stamp, at) =>
      Math.abs(instantOfStamp(settings ?? [], stamp) - (trueEpochMs[at] as number)),
    )
    // Days of the fast clock are 41 s shorter than a day: over 81 of them that is 1.6 s.
    expect(Math.max(...apart)).toBeLessThan(2000)
    expect(
      Math.max(...[...stampEpochMs].map((stamp, at) => stamp - (trueEpochMs[at] as number))),
    ).toBeGreaterThan(54 * 60_000)
  })

  it('never stamps twice, never goes back', () => {
    const { stampEpochMs, trueEpochMs } = scanTimes('LG-08', 60, programme.startsAt)
    for (let i = 1; i < stampEpochMs.length; i++) {
      expect((stampEpochMs[i] as number) - (stampEpochMs[i - 1] as number)).toBe(hourMs)
      expect(trueEpochMs[i] as number).toBeGreaterThan(trueEpochMs[i - 1] as number)
    }
  })

  it('reads on the whole interval from the first wiring to the end', () => {
    const { stampEpochMs } = scanTimes('LG-20', 15, programme.startsAt + dayMs + 1)
    expect(stampEpochMs[0]).toBe(programme.startsAt + dayMs + hourMs / 4)
    expect(stampEpochMs.at(-1)).toBe(programme.endsAt - hourMs / 4)
  })
})

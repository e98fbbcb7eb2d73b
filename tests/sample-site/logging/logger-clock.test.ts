import { describe, expect, it } from 'vitest'
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

import { describe, expect, it } from 'vitest'
import { type LoggerKnown, loggerCondition, weightOf } from '#domain/network/logger-condition.ts'
import { accept, reject } from '#domain/outcome.ts'
import { correctLife } from '#domain/power/corrected-life.ts'
import { factorsFromTests, mixOf } from '#domain/radio/factor-mix.ts'
import type { CoverageTestRow } from '#domain/site/tables.ts'

const at = Date.UTC(2027, 5, 1)
const minutes = 60_000
const drift = (gainSecondsPerDay: number, leastDelaySeconds = 4) =>
  accept({
    gainSecondsPerDay,
    interval: [gainSecondsPerDay - 0.1, gainSecondsPerDay + 0.1] as const,
    days: 30,
    leastDelaySeconds,
    setAfterDayEpochMs: null,
    setBySeconds: null,
  })
const whole = { due: 100, held: 100, inTime: 100, heldShare: 1, inTimeShare: 1 }
const known: LoggerKnown = {
  wired: true,
  lastHeardEpochMs: at - 60 * minutes,
  lateAfterMinutes: 180,
  completeness: whole,
  drift: drift(0.3),
  battery: null,
  batteryLimitVolts: 3,
  consequence: { channels: 4, criticalChannels: 0, dependants: 0 },
  calibrationsOverdue: 0,
}
const says = (change: Partial<LoggerKnown>) =>
  loggerCondition({ ...known, ...change }, at).remarks.map((one) => one.says)
const left = (battery: NonNullable<LoggerKnown['battery']>['left']) => ({
  left: battery,
  trend: null,
  voltsNow: 3.2,
})

describe('loggerCondition', () => {
  it('keeps not heard apart from no problem', () => {
    const standing = (change: Partial<LoggerKnown>) => loggerCondition({ ...known, ...change }, at).standing
    expect(standing({})).toBe('heard-in-part')
    expect(standing({ battery: left({ kind: 'no-slope' }) })).toBe('heard-in-part')
    expect(standing({ battery: left({ kind: 'not-enough', reason: 'x' }) })).toBe('heard-in-part')
    expect(standing({ battery: left({ kind: 'further-than-seen', horizonDays: 177 }) })).toBe('heard')
    expect(standing({ battery: left({ kind: 'days', days: 90, low: 70, high: 120, faster: false }) })).toBe(
      'heard',
    )
    expect(standing({ lastHeardEpochMs: at - 181 * minutes })).toBe('silent')
    expect(standing({ lastHeardEpochMs: at - 180 * minutes })).toBe('heard-in-part')
    expect(standing({ lastHeardEpochMs: null })).toBe('never-heard')
    expect(standing({ wired: false, lastHeardEpochMs: null })).toBe('no-wiring')
  })
  it('tells missing readings from late ones', () => {
    expect(
      says({ completeness: { ...whole, held: 60, heldShare: 0.6, inTime: 60, inTimeShare: 0.6 } })[0],
    ).toBe('40 of 100 readings of its last seven days are missing.')
    expect(says({ completeness: { ...whole, inTime: 60, inTimeShare: 0.6 } })[0]).toContain('came too late')
  })
  it('says of a clock what receipts show, and nothing where they show nothing', () => {
    expect(says({ drift: drift(41, -2485) })[0]).toContain('at least 2485 s ahead')
    expect(says({ drift: drift(-12) })[0]).toBe('Its clock loses 12 s a day.')
    const clockOnRecord = { addedSeconds: -2485, addedSecondsPerDay: 0 }
    expect(says({ drift: drift(41, -2485), clockOnRecord })[0]).toBe(
      'Its clock is at least 2485 s ahead: readings are received before they are stamped. On record: 2485 s are taken off stamps.',
    )
    expect(says({ drift: reject({ code: 'delay-unsteady', message: 'x' }) })).toEqual([])
  })
  it('says when cells are to be changed', () => {
    expect(says({ battery: left({ kind: 'below-limit', volts: 2.95 }) })[0]).toContain('2.95 V')
    const soon = { kind: 'days', days: 20, low: 15, high: 30, faster: true } as const
    expect(says({ battery: left(soon) })[0]).toContain('15 to 30 days; they fall ever faster')
    expect(says({ battery: left({ ...soon, low: 70, days: 90 }) })).toEqual([])
    expect(says({ battery: left({ kind: 'no-slope' }) })).toEqual([])
  })
  it('puts one critical channel before any number of others', () => {
    const one = weightOf({ channels: 1, criticalChannels: 1, dependants: 0 })
    expect(one).toBeGreaterThan(weightOf({ channels: 200, criticalChannels: 0, dependants: 90 }))
  })
})

describe('correctLife', () => {
  const life = (years: number) => ({ years, cappedByShelfLife: false, yearsByCharge: years })
  it('lets the records hold where they say something', () => {
    const days = { kind: 'days', days: 50, low: 40, high: 70, faster: false } as const
    expect(correctLife(life(2), life(3), days)).toMatchObject({ daysFromNow: [40, 70], from: 'records' })
    expect(correctLife(life(2), life(3), { kind: 'below-limit', volts: 2.9 }).daysFromNow).toEqual([0, 0])
    expect(correctLife(life(2), life(3), { kind: 'no-slope' }).from).toBe('paper')
    expect(correctLife(life(2), life(3), null).daysFromNow).toBeNull()
  })
})

it('factorsFromTests takes the fastest factor that delivers, of the newest test', () => {
  const row = (logger: string, at: number, spreadingFactor: number, received: number) =>
    ({ logger, at, spreadingFactor, sent: 10, received }) as CoverageTestRow
  const factors = factorsFromTests([
    row('L1', 1, 7, 10),
    row('L1', 2, 7, 3),
    row('L1', 2, 9, 9),
    row('L1', 2, 12, 10),
    row('L2', 1, 7, 2),
    row('L2', 1, 12, 6),
  ])
  expect(factors.map(({ logger, spreadingFactor }) => [logger, spreadingFactor])).toEqual([
    ['L1', 9],
    ['L2', 12],
  ])
  expect(mixOf(factors)).toEqual([
    { spreadingFactor: 9, share: 0.5 },
    { spreadingFactor: 12, share: 0.5 },
  ])
  expect(mixOf([])).toEqual([])
})

import { describe, expect, it } from 'vitest'
import { batteryLife, batteryLifeBetween } from '#domain/power/battery-life.ts'
import { capacityShareAt } from '#domain/power/cold-derating.ts'
import { alohaSuccess, offeredLoad, periodicSuccess } from '#domain/radio/aloha.ts'
import { dutyBands868, usualDutyBand } from '#domain/radio/duty-cycle.ts'
import { mostLoggers, type NetworkDesign, planNetwork } from '#domain/radio/network-plan.ts'
import { chanceOfOverlap, secondsUntilApart } from '#domain/radio/repeated-meetings.ts'
import { chanceOfRun, runNotExpected } from '#domain/radio/run-of-losses.ts'
import { timeOnAirSeconds, usualFrame } from '#domain/radio/time-on-air.ts'

const design: NetworkDesign = {
  loggers: 1000,
  intervalSeconds: 300,
  channels: 8,
  payloadBytes: 33,
  factors: [{ spreadingFactor: 7, share: 1 }],
  sendings: 1,
  linkShare: 1,
  dutyShare: usualDutyBand.dutyShare,
}

describe('planNetwork', () => {
  it('answers for a thousand loggers at five minutes', () => {
    const plan = planNetwork(design)
    expect(plan.readingsADay).toBe(288_000)
    const onAir = timeOnAirSeconds(usualFrame(7, 33))
    expect(plan.readingSuccess).toBeCloseTo(periodicSuccess(1000, onAir, 300, 8), 12)
    expect(plan.readingSuccess).toBeCloseTo(alohaSuccess(offeredLoad(1000, onAir, 300, 8)), 3)
    expect(plan.missedADay).toBeCloseTo(288_000 * (1 - plan.readingSuccess), 6)
    expect(plan.factors[0]?.withinDuty).toBe(true)
  })
  it('agrees with thrown dice', () => {
    const [loggers, intervalSeconds, channels, onAir] = [40, 60, 3, timeOnAirSeconds(usualFrame(10, 33))]
    let state = 20271031
    const random = () => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0
      return state / 2 ** 32
    }
    const rounds = 20_000
    let through = 0
    for (let round = 0; round < rounds; round++) {
      const mine = random() * intervalSeconds
      let met = false
      for (let other = 1; other < loggers; other++) {
        const apart = Math.abs(random() * intervalSeconds - mine)
        if (Math.min(apart, intervalSeconds - apart) < onAir && random() < 1 / channels) met = true
      }
      if (!met) through++
    }
    const expected = periodicSuccess(loggers, onAir, intervalSeconds, channels)
    expect(Math.abs(through / rounds - expected)).toBeLessThan(
      4 * Math.sqrt((expected * (1 - expected)) / rounds),
    )
  })
  it('is never better with more loggers, a worse link or a shorter interval', () => {
    const share = (more: Partial<NetworkDesign>) => planNetwork({ ...design, ...more }).readingSuccess
    expect(share({ loggers: 2000 })).toBeLessThan(share({}))
    expect(share({ linkShare: 0.9 })).toBeLessThan(share({}))
    expect(share({ intervalSeconds: 150 })).toBeLessThan(share({}))
    expect(share({ loggers: 0 })).toBe(1)
    expect(share({ loggers: 1 })).toBe(1)
  })
  it('finds the most loggers for a wanted share: one more is too many', () => {
    const mixed = {
      ...design,
      factors: [7, 9, 12].map((spreadingFactor) => ({ spreadingFactor, share: 1 / 3 })),
    }
    for (const wanted of [0.9, 0.99]) {
      const most = mostLoggers(mixed, wanted)
      const worst = (loggers: number) =>
        Math.min(...planNetwork({ ...mixed, loggers }).factors.map((one) => one.readingSuccess))
      expect(worst(most)).toBeGreaterThanOrEqual(wanted)
      expect(worst(most + 1)).toBeLessThan(wanted)
    }
    expect(mostLoggers({ ...design, linkShare: 0.5 }, 0.9)).toBe(0)
  })
  it('says when a logger is on the air for longer than its band allows', () => {
    const slow = { ...design, intervalSeconds: 60, factors: [{ spreadingFactor: 12, share: 1 }] }
    const [load] = planNetwork(slow).factors
    expect(load?.withinDuty).toBe(false)
    expect(load?.shortestIntervalSeconds).toBeGreaterThan(60)
    expect(
      dutyBands868.every(({ dutyShare, fromMhz, untilMhz }) => dutyShare <= 0.1 && fromMhz < untilMhz),
    ).toBe(true)
  })
})

describe('chanceOfRun', () => {
  it('is the share of all outcomes that hold such a run', () => {
    const [trials, loss] = [10, 0.3]
    for (const length of [1, 2, 3, 10]) {
      let chance = 0
      for (let outcome = 0; outcome < 2 ** trials; outcome++) {
        const bits = outcome.toString(2).padStart(trials, '0')
        const lost = [...bits].filter((bit) => bit === '1').length
        if (bits.includes('1'.repeat(length))) chance += loss ** lost * (1 - loss) ** (trials - lost)
      }
      expect(chanceOfRun(trials, loss, length)).toBeCloseTo(chance, 12)
    }
  })
  it('has edges', () => {
    expect(chanceOfRun(5, 0.5, 6)).toBe(0)
    expect(chanceOfRun(5, 1, 5)).toBe(1)
    expect(chanceOfRun(5, 0, 1)).toBe(0)
    const most = runNotExpected(8640, 0.05, 0.01)
    expect(chanceOfRun(8640, 0.05, most)).toBeLessThan(0.01)
    expect(chanceOfRun(8640, 0.05, most - 1)).toBeGreaterThanOrEqual(0.01)
  })
})

it('loggers that keep their phase meet again until their clocks are a packet apart', () => {
  expect(secondsUntilApart(0.4, 2)).toBeCloseTo(17_280, 6)
  expect(secondsUntilApart(0.4, 0)).toBe(Number.POSITIVE_INFINITY)
  expect(chanceOfOverlap(1, 1, 300)).toBe(0)
  expect(chanceOfOverlap(100, 1, 300)).toBeCloseTo(1 - (1 - 2 / 300) ** 99, 12)
})

describe('batteries on paper', () => {
  const cell = { milliampHours: 19_000, usableShare: 0.7, selfDischargePerYear: 0.02, shelfLifeYears: 10 }
  it('claim no more than the shelf life', () => {
    const life = batteryLife(cell, 4, 20)
    expect(life.ok && life.value).toMatchObject({ years: 10, cappedByShelfLife: true })
    expect(batteryLife(cell, 1, 0).ok).toBe(false)
  })
  it('last longer with more cells and shorter in the cold', () => {
    const years = (cells: number, share = 1) => {
      const life = batteryLife(cell, cells, 2000, share)
      return life.ok ? life.value.years : Number.NaN
    }
    expect(years(2)).toBeGreaterThan(1.9 * years(1))
    expect(years(2, 0.7)).toBeLessThan(years(2))
    const between = batteryLifeBetween(cell, 2, 2000, 1, 0.25)
    expect(between.ok && between.value.low.years).toBeLessThan(years(2))
    expect(between.ok && between.value.high.years).toBeGreaterThan(years(2))
  })
  it('give less in the cold, and nothing is said beyond what is stated', () => {
    expect(capacityShareAt(20)).toEqual({ ok: true, value: 1 })
    expect(capacityShareAt(-10)).toMatchObject({ ok: true, value: expect.closeTo(0.79, 6) })
    expect(capacityShareAt(-41).ok).toBe(false)
    expect(capacityShareAt(61).ok).toBe(false)
  })
})

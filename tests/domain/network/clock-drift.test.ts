import { describe, expect, it } from 'vitest'
import { clockDrift } from '#domain/network/clock-drift.ts'
import type { LoggerDay } from '#domain/network/logger-day.ts'

const dayMs = 86_400_000
const day = (number: number, leastDelaySeconds: number | null): LoggerDay => ({
  dayEpochMs: Date.UTC(2027, 5, 1) + number * dayMs,
  due: 24,
  held: 24,
  inTime: 24,
  leastDelaySeconds,
  medianDelaySeconds: leastDelaySeconds,
})
const days = (delays: readonly (number | null)[]) => delays.map((delay, number) => day(number, delay))
/** Quickest readings scatter by a few seconds. */
const scatter = [3, 0, 5, 2, 6, 1, 4]
const steady = (count: number, gain: number) =>
  Array.from({ length: count }, (_, at) => 10 + (scatter[at % 7] as number) - gain * at)

describe('clockDrift', () => {
  it('finds what a clock gains, with an interval around it', () => {
    const found = clockDrift(days(steady(30, 41)), 10_800)
    expect(found.ok).toBe(true)
    if (!found.ok) return
    expect(found.value.interval[0]).toBeLessThan(41)
    expect(found.value.interval[1]).toBeGreaterThan(41)
    expect(found.value.interval[1] - found.value.interval[0]).toBeLessThan(1)
    expect(found.value.leastDelaySeconds).toBeLessThan(-1000)
  })

  it('gives a slow clock a negative gain', () => {
    const found = clockDrift(days(steady(30, -7)), 10_800)
    expect(found.ok && found.value.gainSecondsPerDay).toBeCloseTo(-7, 0)
  })

  it('counts only days since the clock was set, and says by how much it was', () => {
    const found = clockDrift(days([...steady(20, 41), ...steady(10, 0)]), 10_800)
    if (!found.ok) throw new Error(found.issues[0]?.message)
    expect(found.value.days).toBe(10)
    expect(Math.abs(found.value.gainSecondsPerDay)).toBeLessThan(1)
    expect(found.value.setBySeconds).toBeLessThan(-700)
  })

  it('takes days of which everything came late as saying nothing of the clock', () => {
    const delays = steady(30, 0)
    delays.splice(15, 5, 250_000, 160_000, 80_000, 40_000, 20_000)
    const found = clockDrift(days(delays), 7200)
    if (!found.ok) throw new Error(found.issues[0]?.message)
    expect(found.value.days).toBe(25)
    expect(found.value.setBySeconds).toBeNull()
  })

  it('refuses readings fetched once a week, and too few days', () => {
    const weekly = Array.from({ length: 42 }, (_, at) => 38_520 + 86_400 * (6 - (at % 7)))
    const found = clockDrift(days(weekly), 691_200)
    expect(found.ok || found.issues[0]?.code).toBe('delay-unsteady')
    const few = clockDrift(days([10, 11, null, 12]), 10_800)
    expect(few.ok || few.issues[0]?.message).toContain('3 days')
  })

  it('never claims to know a slope better than whole seconds over the days', () => {
    const found = clockDrift(days(Array(30).fill(4)), 10_800)
    expect(found.ok && found.value.interval[1]).toBeCloseTo(1 / 29, 6)
  })
})

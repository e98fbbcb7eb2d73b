import { describe, expect, it } from 'vitest'
import { batteryOutlook } from '#domain/power/days-left.ts'
import { voltageTrend } from '#domain/power/voltage-trend.ts'

const noise = [0.3, -0.7, 0.9, -0.2, -0.5, 0.6, 0.1, -0.9, 0.4]
const readings = (
  count: number,
  volts: (day: number) => number,
  degC = (day: number) => 15 + 8 * Math.sin(day / 9),
) =>
  Array.from({ length: count }, (_, day) => ({
    atDays: day,
    volts: volts(day) + 0.0018 * (degC(day) - 15) + 0.0008 * (noise[day % 9] as number),
    temperatureDegC: degC(day),
  }))

describe('voltageTrend', () => {
  it('finds the slope beside a temperature that would hide it, and its interval holds it', () => {
    const found = voltageTrend(
      readings(
        60,
        (day) => 3.6 - 0.0005 * day,
        (day) => 10 + 0.2 * day + 2 * Math.sin(day),
      ),
    )
    if (!found.ok) throw new Error(found.issues[0]?.message)
    const [low, high] = found.value.interval
    expect(low).toBeLessThan(-0.0005)
    expect(high).toBeGreaterThan(-0.0005)
  })
  it('leaves wild readings out', () => {
    const wild = readings(60, (day) => 3.6 - 0.0005 * day).map((one, at) =>
      at === 20 || at === 41 ? { ...one, volts: 2 } : one,
    )
    const found = voltageTrend(wild)
    expect(found.ok && found.value.leftOut).toHaveLength(2)
    expect(found.ok && found.value.voltsPerDay).toBeCloseTo(-0.0005, 4)
  })
  it('refuses four days', () => {
    expect(voltageTrend(readings(4, () => 3.6)).ok).toBe(false)
  })
})

describe('batteryOutlook', () => {
  const outlook = (volts: (day: number) => number, count = 60) =>
    batteryOutlook(readings(count, volts), 3, count - 1, null).left

  it('gives days with an interval where the voltage falls towards its limit', () => {
    const left = outlook((day) => 3.4 - 0.005 * day)
    if (left.kind !== 'days') throw new Error(left.kind)
    expect(left.low).toBeLessThan(left.days)
    expect(left.high).toBeGreaterThan(left.days)
    expect(left.days).toBeCloseTo(0.105 / 0.005, 0)
    expect(left.faster).toBe(false)
  })
  it('carries on the growth of the slope where it falls ever faster', () => {
    const left = outlook((day) => 3.5 - 0.0001 * day ** 2)
    if (left.kind !== 'days') throw new Error(left.kind)
    const truth = Math.sqrt(5000) - 59
    expect(left.faster).toBe(true)
    expect(left.low).toBeLessThan(truth)
    expect(left.days).toBeLessThan(truth + 3)
    expect(left.high).toBeGreaterThan(truth)
  })
  it('holds the end of cells that run down as the third power of time', () => {
    for (const now of [60, 70, 80, 90]) {
      const volts = (day: number) => 3.61 - 0.09 * ((day + 155) / 273) - 0.58 * ((day + 155) / 273) ** 3
      const all = readings(now, volts).slice(-60)
      const end = Array.from({ length: 400 }, (_, day) => day).find((day) => volts(day) <= 3) ?? 0
      const { left } = batteryOutlook(all, 3, now - 1, null)
      if (left.kind !== 'days') throw new Error(`${now}: ${left.kind}`)
      expect(left.low).toBeLessThanOrEqual(end - now + 1)
      expect(left.high).toBeGreaterThanOrEqual(end - now + 1)
    }
  })
  it('says nothing of cells that stay level, and draws no line further than it was seen', () => {
    expect(outlook(() => 3.6).kind).toBe('no-slope')
    expect(outlook((day) => 3.6 - 0.0005 * day)).toEqual({ kind: 'further-than-seen', horizonDays: 177 })
  })
  it('knows a voltage below its limit, and cells that were changed', () => {
    expect(outlook((day) => 3.1 - 0.005 * day).kind).toBe('below-limit')
    expect(outlook((day) => (day < 40 ? 3.2 - 0.004 * day : 3.6 - 0.0001 * day)).kind).not.toBe('days')
    expect(batteryOutlook([], 3, 0, null).left.kind).toBe('not-enough')
  })
  it('knows cells that swing about their limit, and takes no rise up to it for new cells', () => {
    const swinging = (day: number) => (day % 2 === 0 ? 2.75 : 2.95)
    for (const count of [59, 60])
      expect(outlook(swinging, count)).toMatchObject({
        kind: 'below-limit',
        volts: expect.closeTo(swinging(count - 1), 1),
      })
    // Dipped and came back to its limit eight days ago, then crept above it: 60 days tell, not eight.
    const crept = (day: number) =>
      day < 50 ? 3.3 - 0.005 * day : day === 50 ? 2.8 : 2.98 + 0.005 * (day - 51)
    const { trend } = batteryOutlook(readings(58, crept), 3, 57, null)
    expect((trend?.used.length ?? 0) + (trend?.leftOut.length ?? 0)).toBe(58)
  })
  it('needs no trend for a last reading at its limit', () => {
    const one = { atDays: 0, volts: 3, temperatureDegC: null }
    expect(batteryOutlook([one], 3, 0, null)).toEqual({
      left: { kind: 'below-limit', volts: 3 },
      trend: null,
      voltsNow: null,
    })
  })
  it('looks at the limit in the cold', () => {
    const read = readings(60, (day) => 3.4 - 0.005 * day)
    const warm = batteryOutlook(read, 3, 59, null)
    const cold = batteryOutlook(read, 3, 59, -10)
    expect((cold.voltsNow ?? 0) + 0.0018 * 20).toBeLessThan((warm.voltsNow ?? 0) + 0.01)
  })
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { efficiencyByRegression, responseToAirPressure } from '#domain/ground/barometric-efficiency.ts'
import { efficiencyByClark, efficiencyByDifferences } from '#domain/ground/efficiency-by-changes.ts'

const unitWeight = 9.81
const hours = Array.from({ length: 60 }, (_, at) => at)
const airPressureKpa = hours.map((hour) => 101 + 0.8 * Math.sin(hour / 7) + 0.3 * Math.cos(hour / 3))
const well = (efficiency: number, trend: number) => ({
  hours,
  airPressureKpa,
  levelMetres: hours.map(
    (hour, at) => 12 + trend * hour - (efficiency * ((airPressureKpa[at] ?? 0) - 101)) / unitWeight,
  ),
})
const taken = <T>(outcome: { ok: true; value: T } | { ok: false }): T | undefined =>
  outcome.ok ? outcome.value : undefined

test('each estimator gives back the efficiency of readings without noise, the first two with any trend', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: -0.01, max: 0.01, noNaN: true }),
      (efficiency, trend) => {
        const fit = taken(efficiencyByRegression(well(efficiency, trend), unitWeight))
        expect(fit?.efficiency).toBeCloseTo(efficiency, 9)
        expect(fit?.trendMetresPerHour).toBeCloseTo(trend, 9)
        const steps = taken(efficiencyByDifferences(well(efficiency, trend), unitWeight))
        expect(steps?.efficiency).toBeCloseTo(efficiency, 9)
        expect(steps?.driftMetres).toBeCloseTo(trend, 9)
        const days = taken(efficiencyByDifferences(well(efficiency, trend), unitWeight, 24))
        expect(days?.efficiency).toBeCloseTo(efficiency, 9)
        expect(days?.driftMetres).toBeCloseTo(24 * trend, 9)
        expect(days?.changes.airMetres).toHaveLength(36)
        expect(taken(efficiencyByClark(well(efficiency, 0), unitWeight))).toBeCloseTo(efficiency, 9)
      },
    ),
    { seed: 8, numRuns: 50 },
  )
})

describe('says why not', () => {
  const still = { hours, airPressureKpa: hours.map(() => 101), levelMetres: hours }
  test('when the air pressure did not change', () => {
    expect(efficiencyByRegression(still, unitWeight).ok).toBe(false)
    expect(efficiencyByDifferences(still, unitWeight).ok).toBe(false)
    expect(efficiencyByClark(still, unitWeight)).toMatchObject({
      ok: false,
      issues: [{ code: 'air-pressure-still' }],
    })
  })

  test('of too few readings', () => {
    const few = { hours: [0, 1, 2], airPressureKpa: [101, 102, 101.2], levelMetres: [3, 2, 2.5] }
    expect(efficiencyByRegression(few, unitWeight).ok).toBe(false)
  })

  test('of a reading that is no number', () => {
    const broken = { ...well(0.5, 0), levelMetres: hours.map((hour) => (hour === 9 ? Number.NaN : 12)) }
    expect(efficiencyByClark(broken, unitWeight).ok).toBe(false)
    expect(efficiencyByRegression(broken, unitWeight).ok).toBe(false)
  })
})

test('what the ground bears and what the water bears is the whole rise', () => {
  const { ventedInWellKpa, sealedInAquiferKpa } = responseToAirPressure(0.6, 1, unitWeight)
  expect(sealedInAquiferKpa - ventedInWellKpa).toBeCloseTo(1, 12)
})

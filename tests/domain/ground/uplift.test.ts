import { describe, expect, test } from 'vitest'
import { upliftBelow } from '#domain/ground/uplift.ts'
import type { StratumLayer } from '#domain/site/tables.ts'

const layer = (topLevelMetres: number, baseLevelMetres: number, unitWeightKnPerM3: number): StratumLayer => ({
  location: 'PZ-5',
  topLevelMetres,
  baseLevelMetres,
  stratum: 'Clay',
  unitWeightKnPerM3,
  compressibilityM2PerKn: null,
  consolidationM2PerYear: null,
})
const strata = [layer(4, 0, 18), layer(0, -10, 16), layer(-10, -20, 20)]
const tip = (porePressureKpa: number | null, late = false) => ({
  id: 'PZ-5C',
  levelMetres: -12,
  porePressureKpa,
  late,
})

describe('uplift below an excavation', () => {
  test('the weight is that of the layers left above the tip: 6 m of 16 and 2 m of 20 kN/m³ below −4 m', () => {
    const found = upliftBelow(tip(102), strata, -4, 9.81)
    expect(found.ok && found.value.totalStressKpa).toBeCloseTo(136, 9)
    expect(found.ok && found.value.shareOfStress).toBeCloseTo(0.75, 9)
  })

  test('digging on with the same pressure, the share only grows', () => {
    const found = upliftBelow(tip(102), strata, -4, 9.81)
    const shares = found.ok ? found.value.atFormation.map(({ share }) => share) : []
    expect(shares.length).toBeGreaterThan(30)
    expect(shares).toEqual(shares.toSorted((one, other) => one - other))
  })

  test('pressure that equals the weight is told as lifting', () => {
    const found = upliftBelow(tip(136), strata, -4, 9.81)
    expect(found.ok && found.value.remarks[0]).toContain('not below the weight')
  })

  test.each([
    ['a late pressure', tip(102, true), strata, -4, 'pressure-not-current'],
    ['no pressure', tip(null), strata, -4, 'pressure-not-current'],
    ['a tip above formation', tip(102), strata, -13, 'tip-above-formation'],
    ['a gap in the layers', tip(102), [layer(4, 0, 18), layer(-10, -20, 20)], -4, 'layers-missing'],
  ])('%s is refused', (_, at, layers, formation, code) => {
    const found = upliftBelow(at, layers, formation, 9.81)
    expect(found.ok ? null : found.issues[0]?.code).toBe(code)
  })
})

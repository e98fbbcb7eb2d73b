import { describe, expect, test } from 'vitest'
import { deriveMeasured, type MeasuredPoint } from '../../published/derive-measured.ts'
import { near } from './made-measures.ts'

describe('piezometer string', () => {
  const stratum = (topLevelMetres: number, baseLevelMetres: number, unitWeightKnPerM3: number) => ({
    location: 'I-place',
    topLevelMetres,
    baseLevelMetres,
    stratum: 'clay',
    unitWeightKnPerM3,
    compressibilityM2PerKn: null,
    consolidationM2PerYear: null,
  })
  const tips: readonly MeasuredPoint[] = [
    { id: 'P0', depthMetres: 5, read: { 'pore-pressure': 40 } },
    { id: 'P1', depthMetres: 10, read: { 'pore-pressure': 100 } },
  ]
  const derive = (totalStressFrom: 'strata' | null, base: number) =>
    deriveMeasured({
      instrument: { kind: 'piezometer', location: 'I-place', totalStressFrom },
      unit: 'kPa',
      points: tips,
      strata: [stratum(0, -4, 18), stratum(-4, base, 20)],
    })

  test('gradient between neighbours, upward positive', () => {
    const derived = derive(null, -20)
    expect(Object.keys(derived)).toEqual(['P1/hydraulic-gradient'])
    near(derived['P1/hydraulic-gradient'], (100 - 40) / 9.81 / 5 - 1)
    const heavy = deriveMeasured({
      instrument: { kind: 'piezometer', location: 'I-place' },
      unit: 'kPa',
      points: tips,
      waterUnitWeightKnPerM3: 10.05,
    })
    near(heavy['P1/hydraulic-gradient'], (100 - 40) / 10.05 / 5 - 1)
  })

  test('stresses only where the instrument says that the strata hold, and only down to where they are known', () => {
    const derived = derive('strata', -20)
    near(derived['P0/effective-stress'], 4 * 18 + 1 * 20 - 40)
    near(derived['P1/pore-pressure-ratio'], 100 / (4 * 18 + 6 * 20))
    expect(() => derive('strata', -8)).toThrow('do not reach')
  })
})

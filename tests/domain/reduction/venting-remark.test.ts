import { describe, expect, test } from 'vitest'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import { readingTrail } from '#domain/reduction/trail.ts'
import { ventingOf, ventingRemark } from '#domain/reduction/venting-remark.ts'
import { piezometer, readingOf } from './sample-readings.ts'

const unCorrected = readingOf({ series: 'PZ-2/pore-pressure', raw: 82, rawUnit: 'kPa', unit: 'kPa' }, [
  { kind: 'linear', parameters: { factor: 1, offset: 0, unit: 'kPa' } },
])

describe('venting of a sensor', () => {
  test('is asked of what feels a pressure, and never of a barometer', () => {
    expect(ventingOf({ measure: 'pore-pressure', venting: 'sealed' })).toBe('sealed')
    expect(ventingOf({ measure: 'pore-pressure', venting: null })).toBe('not-stated')
    expect(ventingOf({ measure: 'liquid-pressure' })).toBe('not-stated')
    expect(ventingOf({ measure: 'water-level', venting: 'vented' })).toBe('vented')
    expect(ventingOf({ measure: 'water-level', venting: null })).toBeNull()
    expect(ventingOf({ measure: 'barometric-pressure', venting: 'sealed' })).toBeNull()
    expect(ventingOf({ measure: 'force' })).toBeNull()
  })

  test('of a sealed sensor without a barometric term is a caution of its trail, with its size', () => {
    const { cautions, sources } = readingTrail({ ...unCorrected, venting: 'sealed' })
    expect(cautions).toHaveLength(1)
    expect(cautions[0]).toMatch(/^PZ-2\/pore-pressure: Sealed.*absolute pressure.*0\.1 kPa.*10 mm of water/)
    expect(sources[0]?.ventingSentence).toContain('absolute pressure')
  })

  test('passes the caution on to a value that is made of it', () => {
    const bundle = {
      instrument: 'PZ-2',
      rule: { kind: 'mean' },
      slots: [{ point: 'PZ-2', depthMetres: 1, series: [unCorrected.series], maximumAgeMinutes: null }],
      outputs: [
        {
          id: 'PZ-2/made',
          point: 'PZ-2',
          measure: 'pore-pressure',
          unit: 'kPa',
          decimals: 1,
          positiveMeans: null,
          of: 'whole',
        },
      ],
      intervalMinutes: 60,
      lateAfterMinutes: 180,
    } as const
    const trail = derivedTrail(bundle, 'PZ-2/made', unCorrected.atEpochMs, [
      { ...unCorrected, venting: 'sealed' },
    ])
    expect(trail.cautions.filter((caution) => caution.includes('absolute pressure'))).toHaveLength(1)
  })

  test('is told plainly where the air is taken out, cancels, or the record does not say', () => {
    const sealed = readingTrail({ ...piezometer, venting: 'sealed' })
    expect(sealed.sources[0]?.ventingSentence).toBe(
      'Sealed from the air; its calibration takes changes of air pressure out.',
    )
    expect(sealed.cautions.join()).not.toContain('Sealed')
    expect(readingTrail({ ...unCorrected, venting: 'vented' }).sources[0]?.ventingSentence).toContain(
      'cancel in it',
    )
    expect(ventingRemark('not-stated', [])).toMatchObject({ airStandsInValues: false })
    expect(ventingRemark('not-stated', []).sentence).toContain('if it is sealed')
  })

  test('is not spoken of where no pressure is felt or nothing was in force', () => {
    expect(readingTrail(unCorrected).sources[0]).not.toHaveProperty('ventingSentence')
    const bare = readingTrail({ ...unCorrected, calibration: null, venting: 'sealed' })
    expect(bare.sources[0]).not.toHaveProperty('ventingSentence')
  })
})

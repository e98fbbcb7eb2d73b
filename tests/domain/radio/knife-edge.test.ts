import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { fresnelIntegrals } from '#domain/radio/fresnel-integrals.ts'
import { approximateKnifeEdgeLossDb, knifeEdgeLossDb } from '#domain/radio/knife-edge.ts'

describe('knife edge', () => {
  it('is approximated within half a decibel of the exact loss', () => {
    fc.assert(
      fc.property(fc.double({ min: -0.78, max: 60, noNaN: true }), (v) => {
        expect(Math.abs(approximateKnifeEdgeLossDb(v) - knifeEdgeLossDb(v))).toBeLessThan(0.5)
      }),
      { seed: 20270801 },
    )
  })

  it('takes more the higher it stands, and nothing well below the line', () => {
    for (let v = -0.7; v < 10; v += 0.1)
      expect(approximateKnifeEdgeLossDb(v + 0.1)).toBeGreaterThan(approximateKnifeEdgeLossDb(v))
    expect(approximateKnifeEdgeLossDb(-3)).toBe(0)
  })

  it('rests on integrals that join where their two ways meet, odd in their argument', () => {
    const [below, above] = [fresnelIntegrals(1.6), fresnelIntegrals(1.6 + 1e-12)]
    expect(above.cosine - below.cosine).toBeCloseTo(0, 11)
    expect(above.sine - below.sine).toBeCloseTo(0, 11)
    // Abramowitz and Stegun, table 7.7.
    expect(fresnelIntegrals(1).cosine).toBeCloseTo(0.7798934, 7)
    expect(fresnelIntegrals(-2).sine).toBeCloseTo(-0.3434157, 7)
  })
})

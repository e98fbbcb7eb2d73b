import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  curvatureAt,
  gaussianTrough,
  settlementAt,
  slopeAt,
  troughBelowGround,
} from '#domain/ground/trough.ts'
import {
  measuredVolumeM3PerMetre,
  settlementOfTroughs,
  shareWithin,
} from '#domain/ground/troughs/trough-volume.ts'

const drives = fc.record({
  diameterMetres: fc.double({ min: 3, max: 14, noNaN: true }),
  axisDepthMetres: fc.double({ min: 10, max: 40, noNaN: true }),
  volumeLoss: fc.double({ min: 0.002, max: 0.04, noNaN: true }),
  widthParameter: fc.double({ min: 0.25, max: 0.7, noNaN: true }),
})
const drive = { diameterMetres: 6, axisDepthMetres: 20, volumeLoss: 0.01, widthParameter: 0.5 }

describe('a Gaussian trough (its published values are rows of the tunnels table)', () => {
  test('is the same on both sides, steepest at i and nowhere else', () => {
    fc.assert(
      fc.property(drives, fc.double({ min: -50, max: 50, noNaN: true }), (any, offset) => {
        const trough = gaussianTrough(any)
        const i = trough.widthMetres
        expect(settlementAt(trough, -offset)).toBe(settlementAt(trough, offset))
        expect(-slopeAt(trough, 0.99 * i)).toBeLessThan(-slopeAt(trough, i))
        expect(-slopeAt(trough, 1.01 * i)).toBeLessThan(-slopeAt(trough, i))
        expect(curvatureAt(trough, 0.99 * i)).toBeLessThan(0)
        expect(curvatureAt(trough, 1.01 * i)).toBeGreaterThan(0)
      }),
    )
  })
  test('the volume is that under the curve, loss times face area', () => {
    fc.assert(
      fc.property(drives, fc.double({ min: 0.5, max: 6, noNaN: true }), (any, reach) => {
        const trough = gaussianTrough(any)
        const within = Array.from({ length: 2001 }, (_, at) => {
          const offsetMetres = ((at - 1000) / 1000) * reach * trough.widthMetres
          return { offsetMetres, settlementMm: settlementAt(trough, offsetMetres) }
        })
        const face = (Math.PI * any.diameterMetres ** 2) / 4
        const share = measuredVolumeM3PerMetre(within) / (any.volumeLoss * face)
        expect(share).toBeCloseTo(shareWithin(reach), 5)
      }),
      { numRuns: 30 },
    )
  })
  test('two tunnels add up, wherever they are named', () => {
    const trough = gaussianTrough(drive)
    const twins = [-6, 6].map((centreOffsetMetres) => ({ trough, centreOffsetMetres }))
    expect(settlementOfTroughs(twins, 0)).toBeCloseTo(2 * settlementAt(trough, 6), 12)
    expect(settlementOfTroughs(twins.toReversed(), 3)).toBeCloseTo(settlementOfTroughs(twins, 3), 12)
    expect(settlementOfTroughs([], 3)).toBe(0)
  })
  test('deeper is narrower and larger; there is none at the axis', () => {
    const widths = [0, 5, 10].map((depth) => troughBelowGround(drive, depth))
    expect(widths.map((one) => one?.volumeM3PerMetre)).toEqual(
      widths.map(() => gaussianTrough(drive).volumeM3PerMetre),
    )
    const [ground, , below] = widths
    expect(below?.widthMetres).toBeLessThan(ground?.widthMetres ?? 0)
    expect(below?.greatestSettlementMm).toBeGreaterThan(ground?.greatestSettlementMm ?? 0)
    expect(troughBelowGround(drive, 20)).toBeNull()
  })
})

import { describe, expect, test } from 'vitest'
import {
  curvatureAt,
  gaussianTrough,
  settlementAt,
  slopeAt,
  troughBelowGround,
} from '#domain/ground/trough.ts'
import { trough as published, troughBelowSurface } from '../../published/ground.ts'

const trough = gaussianTrough(published)

describe(published.source, () => {
  test('width, volume, greatest settlement', () => {
    expect(trough.widthMetres).toBeCloseTo(published.widthMetres, 12)
    expect(trough.volumeM3PerMetre).toBeCloseTo(published.volumeM3PerMetre, 11)
    expect(trough.greatestSettlementMm).toBeCloseTo(published.greatestSettlementMm, 9)
  })
  test.each(published.settlements)('S($offsetMetres)', ({ offsetMetres, settlementMm }) => {
    expect(settlementAt(trough, offsetMetres)).toBeCloseTo(settlementMm, 9)
    expect(settlementAt(trough, -offsetMetres)).toBe(settlementAt(trough, offsetMetres))
  })
  test('steepest at i, sagging at the middle, hogging most at √3 i', () => {
    const i = trough.widthMetres
    expect(-slopeAt(trough, i) / 1000).toBeCloseTo(published.greatestSlope, 12)
    expect(-slopeAt(trough, 0.99 * i)).toBeLessThan(-slopeAt(trough, i))
    expect(-slopeAt(trough, 1.01 * i)).toBeLessThan(-slopeAt(trough, i))
    expect(-curvatureAt(trough, 0) / 1000).toBeCloseTo(published.sagging, 14)
    expect(curvatureAt(trough, Math.sqrt(3) * i) / 1000).toBeCloseTo(published.hogging, 14)
  })
  test('the volume is that under the curve', () => {
    let sum = 0
    for (let y = -40; y <= 40; y += 2) sum += settlementAt(trough, y) * (Math.abs(y) === 40 ? 1 : 2)
    expect(sum / 1000).toBeCloseTo(published.volumeWithin40Metres, 9)
  })
  test('two tunnels add up', () => {
    const { halfSpacingMetres: half, atMiddleMm, overOneMm } = published.twin
    expect(2 * settlementAt(trough, half)).toBeCloseTo(atMiddleMm, 9)
    expect(settlementAt(trough, 0) + settlementAt(trough, 2 * half)).toBeCloseTo(overOneMm, 9)
  })
})

describe(`${troughBelowSurface.source}, ${troughBelowSurface.sourceKind}`, () => {
  test.each(troughBelowSurface.rows)('at $depthMetres m', ({ depthMetres, widthMetres }) => {
    const below = troughBelowGround(published, depthMetres)
    expect(below?.widthMetres).toBeCloseTo(widthMetres, 12)
    expect(below?.volumeM3PerMetre).toBe(trough.volumeM3PerMetre)
  })
  test('deeper is narrower and larger; there is none at the axis', () => {
    expect(troughBelowGround(published, 10)?.greatestSettlementMm).toBeCloseTo(
      troughBelowSurface.greatestAt10MetresMm,
      9,
    )
    expect(troughBelowGround(published, 20)).toBeNull()
  })
})

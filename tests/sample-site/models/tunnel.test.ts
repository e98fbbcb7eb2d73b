import { describe, expect, it } from 'vitest'
import { normalShare } from '../../../sample-site/models/error-function.ts'
import { dayMs, programme } from '../../../sample-site/models/programme.ts'
import { finalMillimetres, troughWidthMetres, tunnelMillimetres } from '../../../sample-site/models/tunnel.ts'

describe('troughWidthMetres', () => {
  // Mair, Taylor and Bracegirdle 1993, from memory: i = 0.5 z0 at the surface, K = i / (z0 - z) grows with depth.
  it('is half the axis depth at the surface, 0.175 of it at the axis', () => {
    expect(troughWidthMetres(0)).toBeCloseTo(7, 12)
    expect(troughWidthMetres(14)).toBeCloseTo(0.175 * 14, 12)
  })
})

describe('finalMillimetres', () => {
  it.each([
    [0, 5.2],
    [3, 6.0],
    [6, 7.2],
    [9, 8.9],
    [11.5, 11.1],
  ])('at %d m depth settles %d mm', (depth, millimetres) => {
    expect(finalMillimetres(depth)).toBeCloseTo(millimetres, 1)
  })
})

describe('tunnelMillimetres', () => {
  const later = programme.tunnelFrom + 60 * dayMs
  it('holds the volume lost: 1 % of the face', () => {
    let volume = 0
    for (let north = -60; north <= 60; north += 0.1)
      volume += tunnelMillimetres(500_000, 309_946 + north, 0, later) * 0.1
    expect(volume / 1000).toBeCloseTo((0.01 * Math.PI * 3.4 ** 2) / 4, 4)
  })
  it('comes to 4.4 mm on the kerb line, half of it when the face is below', () => {
    expect(tunnelMillimetres(500_000, 309_950, 0, later)).toBeCloseTo(4.4, 1)
    expect(tunnelMillimetres(500_000, 309_950, 0, programme.tunnelFrom + 12 * dayMs)).toBeCloseTo(2.2, 1)
  })
})

describe('normalShare', () => {
  // Published: Abramowitz and Stegun 1964, table 26.1.
  it.each([
    [0, 0.5],
    [1, 0.84134],
    [1.96, 0.975],
    [-3, 0.00135],
  ])('P(%d) = %d', (x, share) => expect(normalShare(x)).toBeCloseTo(share, 4))
})

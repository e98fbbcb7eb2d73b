import { describe, expect, it } from 'vitest'
import { programme } from '../../../sample-site/models/programme.ts'
import {
  concaveMillimetres,
  groundDeflectionMillimetres,
  wallDeflectionMillimetres,
  wallSettlementMillimetres,
} from '../../../sample-site/models/wall.ts'

describe('wall', () => {
  it.each([
    [0, 8],
    [6.5, 16],
    [12, 12],
    [26, 1.7],
    [52, 0],
  ])('settles the ground %d m behind it by %d mm', (offset, millimetres) => {
    expect(concaveMillimetres(offset)).toBeCloseTo(millimetres, 9)
  })

  it('bulges 22 mm at 9 m and leans 4 mm at its top once stage 3 is done', () => {
    const done = programme.endsAt
    expect(wallDeflectionMillimetres(9, done)).toBeCloseTo(22 + 4 * (1 - 9 / 22.6), 0)
    expect(wallDeflectionMillimetres(0, done)).toBeCloseTo(22 * Math.exp(-81 / 50) + 4, 0)
  })

  it('carries the ground behind it along at 45°, and leaves it where that line ends below the toe', () => {
    const done = programme.endsAt
    expect(groundDeflectionMillimetres(15, 0, done)).toBeCloseTo(wallDeflectionMillimetres(15, done), 12)
    expect(groundDeflectionMillimetres(15, 0, done)).toBeCloseTo(12, 0)
    expect(Math.abs(groundDeflectionMillimetres(15, 10, done))).toBeLessThan(0.15)
    const [above, below] = [7.6 - 1e-6, 7.6 + 1e-6].map((depth) =>
      groundDeflectionMillimetres(15, depth, done),
    ) as [number, number]
    expect(above).toBeCloseTo(below, 4)
  })

  it('does not move before the dig, nor on the dock side', () => {
    expect(wallDeflectionMillimetres(5, programme.stage1.from)).toBe(0)
    expect(wallSettlementMillimetres(500_060, 310_040, programme.endsAt)).toBe(0)
  })
})

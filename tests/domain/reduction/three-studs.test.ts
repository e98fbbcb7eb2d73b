import fc from 'fast-check'
import { expect, test } from 'vitest'
import { cellRiseMm } from '#domain/reduction/settlement-cell.ts'
import { studMovement } from '#domain/reduction/three-studs.ts'

test('three studs give back how far the third was moved', () => {
  const shift = fc.double({ min: -5, max: 5, noNaN: true })
  fc.assert(
    fc.property(shift, shift, (along, away) => {
      const lengths = (x: number, y: number) => ({
        ab: 100,
        ac: Math.hypot(x, y),
        bc: Math.hypot(100 - x, y),
      })
      const moved = studMovement(lengths(40, 80), lengths(40 + along, 80 + away))
      expect(moved.ok && moved.value.shearMm).toBeCloseTo(along, 8)
      expect(moved.ok && moved.value.openingMm).toBeCloseTo(away, 8)
    }),
    { seed: 71 },
  )
})

test('lengths that make no triangle are refused', () => {
  const sound = { ab: 100, ac: 80, bc: 80 }
  expect(studMovement(sound, { ab: 100, ac: 40, bc: 50 }).ok).toBe(false)
  expect(studMovement({ ab: 0, ac: 80, bc: 80 }, sound).ok).toBe(false)
})

test('a warmer, lighter column of the same height is no movement when its density is known', () => {
  const column = (density: number) => ({
    pressureKpa: (density * 9.80665 * 3) / 1000,
    densityKgPerM3: density,
    reservoirDropMm: 0,
  })
  expect(cellRiseMm(column(999.7), column(995.6))).toBeCloseTo(0, 9)
})

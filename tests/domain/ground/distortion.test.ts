import fc from 'fast-check'
import { expect, test } from 'vitest'
import { beamStrains, damageCategory, riskClass } from '#domain/ground/building-damage.ts'
import { distortionOf } from '#domain/ground/distortion.ts'

const amount = fc.double({ min: -50, max: 50, noNaN: true })

test('a building that tilts as one is not distorted', () => {
  fc.assert(
    fc.property(amount, amount, (start, tilt) => {
      const made = distortionOf(
        [0, 7, 12, 30].map((chainageMetres) => ({
          chainageMetres,
          settlementMm: start + tilt * chainageMetres,
        })),
      )
      expect(made.ok && made.value.tiltMmPerM).toBeCloseTo(tilt, 9)
      expect(made.ok && made.value.deflectionRatio).toBeCloseTo(0, 9)
      for (const one of made.ok ? made.value.angularDistortionMmPerM : [1]) expect(one).toBeCloseTo(0, 9)
    }),
    { seed: 81 },
  )
})

test('sagging is positive, hogging negative, and the order of points does not matter', () => {
  const bent = (middle: number) =>
    distortionOf([
      { chainageMetres: 20, settlementMm: 0 },
      { chainageMetres: 0, settlementMm: 0 },
      { chainageMetres: 10, settlementMm: middle },
    ])
  const [sagging, hogging] = [bent(6), bent(-6)]
  expect(sagging.ok && sagging.value.greatestDeflectionMm).toBe(6)
  expect(hogging.ok && hogging.value.greatestDeflectionMm).toBe(-6)
  expect(sagging.ok && sagging.value.deflectionRatio).toBeCloseTo(0.0003, 12)
})

test('two points, or two at one place, are refused', () => {
  const at = (...chainages: number[]) =>
    distortionOf(chainages.map((chainageMetres) => ({ chainageMetres, settlementMm: 1 }))).ok
  expect([at(0, 10), at(0, 10, 10), at(0, 10, 20)]).toEqual([false, false, true])
})

test('a strain on the line between two categories says so; a settlement on a limit is not below it', () => {
  expect(damageCategory(0.075)).toEqual({ category: '1', upToPercent: 0.075, onBoundary: true })
  expect(damageCategory(9).category).toBe('4-5')
  expect(riskClass(10, 0).name).toBe('slight')
  expect(riskClass(80, 0).name).toBe('high')
})

test('a long wall is bent less when its neutral axis lies at mid-height', () => {
  const wall = { lengthMetres: 60, heightMetres: 8, stiffnessRatio: 2.6 }
  const [sagging, hogging] = (['sagging', 'hogging'] as const).map((mode) =>
    beamStrains({ ...wall, mode }, 0.001),
  )
  expect(sagging?.bending).toBeLessThan(hogging?.bending ?? 0)
})

import { expect, test } from 'vitest'
import { porePressureRatio, totalVerticalStressKpa } from '#domain/ground/effective-stress.ts'
import { headGradient } from '#domain/ground/head-gradient.ts'
import { heaveBalance, ratioAgainstHeave, shareOfResistance } from '#domain/ground/heave.ts'

test('nothing is known of stress below the last layer, or of a ratio to nothing', () => {
  expect(totalVerticalStressKpa([{ thicknessMetres: 3, unitWeightKnPerM3: 18 }], 4)).toBeNull()
  expect(porePressureRatio(10, 0)).toBeNaN()
  expect(ratioAgainstHeave(0.9, 0)).toBeNaN()
  expect(shareOfResistance(10, 0)).toBeNaN()
})

test('three points on a line give no direction of flow', () => {
  const onALine = [0, 1, 2].map((at) => ({ eastingMetres: at, northingMetres: 2 * at, headMetres: at }))
  expect(headGradient(onALine as never).ok).toBe(false)
})

test('water at rest in a column does not lift it', () => {
  const still = heaveBalance({
    thicknessMetres: 4,
    unitWeightKnPerM3: 19,
    unitWeightOfWater: 9.81,
    porePressureAtBaseKpa: 4 * 9.81,
  })
  expect(still).toMatchObject({ totalStressKpa: 76, seepageForceKn: 0, gradient: 0 })
})

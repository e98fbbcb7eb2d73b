import fc from 'fast-check'
import { expect, test } from 'vitest'
import { stressFromStrata } from '#domain/ground/stress-from-strata.ts'

const upper = { topLevelMetres: 4, baseLevelMetres: 2, unitWeightKnPerM3: 18 }
const lower = { topLevelMetres: 2, baseLevelMetres: -6, unitWeightKnPerM3: 16 }
const layers = [lower, upper]

test('layers in any order weigh as they lie: 2·18 + 3·16 = 84 kPa five metres down', () => {
  expect(stressFromStrata(layers, 4, -1)).toBeCloseTo(84, 12)
})

test('a gap, a log that begins below the collar, a level below it and nothing above are each null', () => {
  expect(stressFromStrata([{ ...lower, topLevelMetres: 1 }, upper], 4, -1)).toBeNull()
  expect(stressFromStrata(layers, 4.5, -1)).toBeNull()
  expect(stressFromStrata(layers, 4, -6.1)).toBeNull()
  expect(stressFromStrata(layers, 4, 4)).toBeNull()
  expect(stressFromStrata([], 4, 0)).toBeNull()
})

test('it never falls with depth', () => {
  const level = fc.double({ min: -6, max: 3.99, noNaN: true })
  fc.assert(
    fc.property(level, level, (one, other) => {
      const at = (levelMetres: number) => stressFromStrata(layers, 4, levelMetres) as number
      expect(at(Math.min(one, other))).toBeGreaterThanOrEqual(at(Math.max(one, other)))
    }),
    { seed: 11 },
  )
})

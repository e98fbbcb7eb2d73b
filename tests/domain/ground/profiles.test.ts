import { expect, test } from 'vitest'
import { gradientsBetweenTips, hydrostaticLine, orderTips } from '#domain/ground/profiles.ts'

const tip = (id: string, levelMetres: number, porePressureKpa: number | null) => ({
  id,
  levelMetres,
  porePressureKpa,
})

test('still water: 9.81 kPa a metre below its level, nothing above it', () => {
  expect(hydrostaticLine(1, 4, -9)).toEqual([
    { levelMetres: 4, pressureKpa: 0 },
    { levelMetres: 1, pressureKpa: 0 },
    { levelMetres: -9, pressureKpa: 98.10000000000001 },
  ])
  expect(hydrostaticLine(5, 4, 3).map(({ pressureKpa }) => pressureKpa)).toEqual([9.81, 19.62])
  expect(hydrostaticLine(1, 4, 2).map(({ pressureKpa }) => pressureKpa)).toEqual([0, 0])
  expect(hydrostaticLine(1, 2, 2)).toEqual([])
})

test('tips from the highest down', () => {
  expect(
    orderTips([tip('C', -14, 1), tip('B2', -7.4, 1), tip('B', -7.4, 1), tip('A', -1, 1)]).map(({ id }) => id),
  ).toEqual(['A', 'B', 'B2', 'C'])
})

test('still water has no hydraulic gradient; more pressure below drives water up', () => {
  const still = gradientsBetweenTips([tip('A', -1, 0), tip('B', -11, 98.1)])
  expect(still).toHaveLength(1)
  expect(still[0]).toMatchObject({ upper: 'A', lower: 'B', apartMetres: 10 })
  expect(still[0]?.pressureGradientKpaPerMetre).toBeCloseTo(9.81, 12)
  expect(still[0]?.upwardHydraulicGradient).toBeCloseTo(0, 12)
  const [up] = gradientsBetweenTips([tip('B', -11, 98.1 + 9.81), tip('A', -1, 0)])
  expect(up?.upwardHydraulicGradient).toBeCloseTo(0.1, 12)
  const [down] = gradientsBetweenTips([tip('B', -11, 98.1 - 19.62), tip('A', -1, 0)])
  expect(down?.upwardHydraulicGradient).toBeCloseTo(-0.2, 12)
})

test('a tip without a current value leaves its gaps unknown, and nothing is drawn past it', () => {
  const gaps = gradientsBetweenTips([tip('A', -1, 10), tip('B', -7, null), tip('C', -14, 130)])
  expect(
    gaps.map(({ upper, lower, upwardHydraulicGradient }) => [upper, lower, upwardHydraulicGradient]),
  ).toEqual([
    ['A', 'B', null],
    ['B', 'C', null],
  ])
  expect(gradientsBetweenTips([tip('A', -1, 10), tip('A2', -1, 11)])).toEqual([])
  expect(gradientsBetweenTips([])).toEqual([])
})

import fc from 'fast-check'
import { expect, it } from 'vitest'
import { betweenTwoPoints } from '#domain/ground/between-two-points.ts'
import type { SettledPlace } from '#domain/ground/settled-place.ts'

const place = (
  id: string,
  east: number,
  north: number,
  mm: number | null,
  more: Partial<SettledPlace> = {},
) =>
  ({
    id,
    eastingMetres: 500_000 + east,
    northingMetres: 310_000 + north,
    settlementMm: mm,
    standardUncertaintyMm: 0.3,
    late: false,
    readAtEpochMs: 0,
    ...more,
  }) satisfies SettledPlace

function made(...given: Parameters<typeof betweenTwoPoints>) {
  const outcome = betweenTwoPoints(...given)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  return outcome.value
}

const codeOf = (...given: Parameters<typeof betweenTwoPoints>) => {
  const outcome = betweenTwoPoints(...given)
  return outcome.ok ? null : outcome.issues[0]?.code
}

it('states difference, distance and slope with their errors', () => {
  const found = made(place('A', 0, 0, 2), place('B', 6, 8, 12), null, false)
  expect(found.differenceMm).toBe(10)
  expect(found.distanceMetres).toBeCloseTo(10, 12)
  expect(found.differenceStandardErrorMm).toBeCloseTo(0.3 * Math.SQRT2, 12)
  expect(found.slopeMmPerM).toBeCloseTo(1, 12)
  expect(found.slopeStandardErrorMmPerM).toBeCloseTo(0.03 * Math.SQRT2, 12)
  expect(found.standing).toBe('told')
  expect(found.remarks[0]).toMatch(/^Slope 1 in 1000, between 1 in 923 and 1 in 1090 \(95 %\)\.$/)
})

it('does not call points level that cannot be told from level', () => {
  const found = made(place('A', 0, 0, 2), place('B', 10, 0, 2.5), null, false)
  expect(found.standing).toBe('none')
  expect(found.remarks[0]).toMatch(/not told from level/)
  expect(
    made(place('A', 0, 0, 2, { standardUncertaintyMm: null }), place('B', 10, 0, 9), null, false),
  ).toMatchObject({ standing: 'unknown', differenceStandardErrorMm: null })
})

it('tells points from level by the interval that it states', () => {
  const error = 0.3 * Math.SQRT2
  const told = made(place('A', 0, 0, 0), place('B', 10, 0, 1.98 * error), null, false)
  expect(told.standing).toBe('told')
  expect(told.remarks[0]).toMatch(/^Slope 1 in 11900, between 1 in 5980 and .* \(95 %\)\.$/)
  const level = made(place('A', 0, 0, 0), place('B', 10, 0, 1.95 * error), null, false)
  expect(level.standing).toBe('none')
  expect(level.remarks[0]).toMatch(/not above 1\.96 times its standard error.*\(95 %\)\.$/)
})

it('refuses one point twice, one place, late points and points without a value or a position', () => {
  const a = place('A', 0, 0, 2)
  expect(codeOf(a, a, null, false)).toBe('one-point')
  expect(codeOf(a, place('B', 0, 0, 3), null, false)).toBe('one-place')
  expect(codeOf(a, place('B', 9, 0, 3, { late: true }), null, false)).toBe('no-value')
  expect(codeOf(a, place('B', 9, 0, null), null, false)).toBe('no-value')
  expect(codeOf(a, place('B', 9, 0, Number.NaN), null, false)).toBe('no-value')
  expect(codeOf(a, place('B', Number.NaN, 0, 3), null, false)).toBe('no-value')
})

it('tells the step across a barrier, and no slope', () => {
  const found = made(place('A', 0, 0, 2), place('B', 10, 0, 12), place('M', 5, 0, 3), true)
  expect(found).toMatchObject({ differenceMm: 10, slopeMmPerM: null, middle: null })
  expect(found.remarks[0]).toMatch(/barrier/)
  expect(found.leftOut).toHaveLength(1)
})

it('gives the angular distortion of a point between, by the bay that turns more', () => {
  const found = made(place('A', 0, 0, 0), place('B', 20, 0, 0), place('M', 5, 1, 6), false)
  // The shorter bay turns more: 6 mm over 5 m.
  expect(found.middle).toMatchObject({ angularDistortionMmPerM: 1.2, deflectionMm: 6, isTold: true })
  expect(found.middle?.besideMetres).toBeCloseTo(1, 12)
  expect(found.middle?.deflectionStandardErrorMm).toBeCloseTo(0.3 * Math.hypot(0.75, 1, 0.25), 12)
  expect(found.middle?.standardErrorMmPerM).toBeCloseTo((0.3 * Math.hypot(0.75, 1, 0.25)) / 5, 12)
  for (const unfit of [place('M', -1, 0, 6), place('M', 5, 4, 6), place('M', 5, 0, 6, { late: true })])
    expect(made(place('A', 0, 0, 0), place('B', 20, 0, 0), unfit, false)).toMatchObject({ middle: null })
})

it('turned round, it is the same with the other sign', () => {
  const figure = fc.double({ min: -200, max: 200, noNaN: true })
  fc.assert(
    fc.property(figure, figure, figure, figure, (east, north, one, other) => {
      fc.pre(Math.hypot(east, north) > 0.1)
      const [a, b] = [place('A', 0, 0, one), place('B', east, north, other)]
      const [there, back] = [made(a, b, null, false), made(b, a, null, false)]
      expect(back.differenceMm).toBe(0 - there.differenceMm)
      expect(back.slopeMmPerM).toBe(there.slopeMmPerM)
      expect(back.standing).toBe(there.standing)
    }),
  )
})

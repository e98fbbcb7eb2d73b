import { expect, test } from 'vitest'
import { typingSlips } from '#domain/review/single/typing-slips.ts'

const meantBy = (written: number, kind: string) =>
  typingSlips(written)
    .filter((slip) => slip.kind === kind)
    .map(({ meant }) => meant)

test('a written number may have been meant with its point elsewhere, two digits swapped, another sign or unit', () => {
  expect(meantBy(5.27, 'decimal point').map((meant) => Number(meant.toPrecision(9)))).toEqual([
    52.7, 0.527, 527, 0.0527,
  ])
  expect(meantBy(-12.34, 'swapped digits').sort()).toEqual([-12.43, -13.24, -21.34].sort())
  expect(meantBy(7, 'sign')).toEqual([-7])
  // The international foot is 0.3048 m and the inch 2.54 cm by definition (1959).
  expect(meantBy(10, 'unit')[0]).toBeCloseTo(3.048, 12)
  expect(meantBy(10, 'unit')[2]).toBeCloseTo(25.4, 12)
})

test('digits that are alike cannot be swapped, a swap moves a number by a multiple of nine of its last place', () => {
  expect(meantBy(5.55, 'swapped digits')).toEqual([])
  for (const written of [101.2347, 0.4083, 87.61])
    for (const meant of meantBy(written, 'swapped digits')) {
      const places = String(written).split('.')[1]?.length ?? 0
      expect(Math.round((meant - written) * 10 ** places) % 9 === 0).toBe(true)
    }
})

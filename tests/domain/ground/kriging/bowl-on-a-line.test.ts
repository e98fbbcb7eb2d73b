import { describe, expect, test } from 'vitest'
import type { KrigingPoint } from '#domain/ground/kriging/kriging-system.ts'
import { variogramForPlaces } from '#domain/ground/kriging/variogram-for-places.ts'

/** Three lines of marks 12 m apart along a trough that is alike from end to end, in mm, with 0.7 mm of error. */
function marks(bowlMm: number): readonly KrigingPoint[] {
  const scatter = (seed: number) => (((seed * 7919) % 1000) / 1000 - 0.5) * 0.8
  return [-24, -12, 0, 12, 24].flatMap((north, line) =>
    Array.from({ length: 16 }, (_, at) => {
      const east = (at - 8) * 12
      const trough = 12 * Math.exp(-(north ** 2) / 300)
      const bowl = bowlMm * Math.exp(-(east ** 2 + north ** 2) / (2 * 6 ** 2))
      return { east, north, value: trough + bowl + scatter(line * 16 + at), errorVariance: 0.49 }
    }),
  )
}

const chosen = (places: readonly KrigingPoint[]) => {
  const outcome = variogramForPlaces(places, {
    unit: 'mm',
    drift: 'ordinary',
    variogram: { shapes: ['exponential', 'spherical'], anisotropy: 'fitted', groundNugget: 'none' },
  })
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join(' '))
  return outcome.value
}

describe('a bowl of 14 mm, 12 m wide, on a trough that is alike along its line', () => {
  test('without the bowl the direction of the trough is taken', () => {
    const { variogram } = chosen(marks(0))
    expect(variogram?.anisotropy?.ratio).toBeLessThan(0.5)
  })

  test('with it no direction is: it would be smoothed into its neighbours, and the account says so', () => {
    const { variogram, sentence } = chosen(marks(14))
    expect(variogram?.anisotropy).toBeNull()
    expect(sentence).toMatch(
      /would pass one reading by \d+\.\d times its own error, so the ground is taken as alike/,
    )
  })
})

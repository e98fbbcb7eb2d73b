import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { deriveMeasured } from '../../published/derive-measured.ts'
import { amount, anchors, near } from './made-measures.ts'

describe('extensometer', () => {
  test.each(['apart', 'together'] as const)(
    'strains times lengths add up to the head against the deepest anchor (%s)',
    (anchorPositive) => {
      fc.assert(
        fc.property(fc.array(amount, { minLength: 2, maxLength: 8 }), (readings) => {
          const derived = deriveMeasured({
            instrument: { kind: 'extensometer', fixedEnd: 'deepest-anchor', anchorPositive },
            points: anchors(readings),
          })
          const extension = readings.reduce(
            (sum, _, at) => sum + 2.5 * (derived[`A${at}/strain`] ?? Number.NaN),
            0,
          )
          // In the words of a closing the head's movement is a settlement, which shortens the ground.
          const sign = anchorPositive === 'apart' ? 1 : -1
          near(derived['I/relative-displacement'], sign * extension, 1000)
        }),
        { seed: 31 },
      )
    },
  )

  test('a missing anchor takes with it what hangs on it and nothing else', () => {
    const derived = deriveMeasured({
      instrument: { kind: 'extensometer', fixedEnd: 'deepest-anchor', anchorPositive: 'apart' },
      points: anchors([1, null, 3, 4]),
    })
    expect(Object.entries(derived).filter(([, value]) => value === null)).toEqual([
      ['A1/strain', null],
      ['A2/strain', null],
      ['A1/relative-displacement', null],
    ])
  })

  test('settlement from a surveyed head: that of the head less a closing, and an opening', () => {
    const settled = (anchorPositive: 'apart' | 'together') =>
      deriveMeasured({
        instrument: {
          kind: 'extensometer',
          fixedEnd: 'surveyed-head',
          anchorPositive,
          surveyedPoint: 'SP',
          surveyMaximumAgeDays: 30,
        },
        points: anchors([2]),
        others: [{ id: 'SP', read: { settlement: 10 } }],
      })['A0/settlement']
    expect(settled('together')).toBe(8)
    expect(settled('apart')).toBe(12)
  })

  test('its sense is not guessed: nothing is made while it is not stated', () => {
    expect(
      deriveMeasured({
        instrument: { kind: 'extensometer', fixedEnd: 'deepest-anchor' },
        points: anchors([1, 2]),
      }),
    ).toEqual({})
  })
})

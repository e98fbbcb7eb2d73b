import fc from 'fast-check'
import { describe, test } from 'vitest'
import { deriveMeasured, type MeasuredPoint } from '../../published/derive-measured.ts'
import { amount, near } from './made-measures.ts'

describe('in-place inclinometer', () => {
  test('from a surveyed head that moved as the string says, the toe stands still', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(amount, amount), { minLength: 1, maxLength: 6 }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        (increments, axisBearingDegrees) => {
          const points = increments.map(
            ([a, b], at): MeasuredPoint => ({
              id: `T${at}`,
              depthMetres: 1 + 2 * at,
              read: { 'inclination-a': a, 'inclination-b': b },
            }),
          )
          const fromToe = deriveMeasured({
            instrument: { kind: 'in-place-inclinometer', fixedEnd: 'toe', axisBearingDegrees },
            points,
          })
          const fromHead = deriveMeasured({
            instrument: {
              kind: 'in-place-inclinometer',
              fixedEnd: 'surveyed-head',
              axisBearingDegrees,
              surveyedPoint: 'SP',
              surveyMaximumAgeDays: 7,
            },
            points,
            others: [
              {
                id: 'SP',
                read: {
                  'displacement-east': fromToe['I/displacement-east'] ?? null,
                  'displacement-north': fromToe['I/displacement-north'] ?? null,
                },
              },
            ],
          })
          near(fromHead['I/displacement-east'], 0, 5000)
          near(fromHead['I/displacement-north'], 0, 5000)
          near(fromHead[`T${increments.length - 1}/deflection`], 0, 5000)
        },
      ),
      { seed: 34 },
    )
  })
})

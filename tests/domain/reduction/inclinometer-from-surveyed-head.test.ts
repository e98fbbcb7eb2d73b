import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { toEastNorth } from '#domain/reduction/inclinometer-axes.ts'
import { deriveMeasured } from '../../published/derive-measured.ts'
import { amount, interval, near } from './made-measures.ts'

describe.each(['in-place-inclinometer', 'traversed-inclinometer'] as const)(
  'grooves that turn with depth (%s)',
  (kind) => {
    const movement = (
      readings: readonly (readonly [number, number])[],
      bearings: { readonly top: number; readonly toe: number },
      fixedEnd: 'toe' | 'head' = 'toe',
      positiveB: 'clockwise' | 'counter-clockwise' = 'clockwise',
    ) => {
      const base = readings.length / 2
      return deriveMeasured({
        instrument: { kind, location: 'I-place', fixedEnd, positiveB, axisBearingDegrees: bearings.top },
        spiralSurveys: [
          {
            location: 'I-place',
            depthMetres: base,
            spiralDegrees: bearings.toe - bearings.top,
            surveyedAt: 0,
            surveyedBy: 'surveyor',
          },
        ],
        points: readings.map(([a, b], at) => ({
          ...interval(at, null, null),
          zeroDeviationBMm: 0,
          read:
            kind === 'in-place-inclinometer'
              ? { 'inclination-a': a, 'inclination-b': b }
              : { 'face-a0': a, 'face-a180': -a, 'face-b0': b, 'face-b180': -b },
        })),
      })
    }

    test('each segment is turned by the grooves at its middle before the sum', () => {
      fc.assert(
        fc.property(
          fc.array(fc.tuple(amount, amount), { minLength: 1, maxLength: 6 }),
          fc.double({ min: 0, max: 360, noNaN: true }),
          fc.double({ min: -40, max: 40, noNaN: true }),
          fc.constantFrom('toe' as const, 'head' as const),
          fc.constantFrom('clockwise' as const, 'counter-clockwise' as const),
          (readings, top, twist, fixedEnd, positiveB) => {
            const derived = movement(readings, { top, toe: top + twist }, fixedEnd, positiveB)
            const sum = readings.reduce(
              (all, [a, b], at) => {
                const bearingDegrees = top + (twist * (at + 0.5)) / readings.length
                const { east, north } = toEastNorth(a, b, { bearingDegrees, positiveB })
                return { east: all.east + east, north: all.north + north }
              },
              { east: 0, north: 0 },
            )
            const sign = fixedEnd === 'toe' ? 1 : -1
            near(derived['I/displacement-east'], sign * sum.east, 5000)
            near(derived['I/displacement-north'], sign * sum.north, 5000)
          },
        ),
        { seed: 39 },
      )
    })

    test('deflection along the grooves is not turned', () => {
      const straight = movement([[1, 2]], { top: 30, toe: 30 })
      const turned = movement([[1, 2]], { top: 30, toe: 75 })
      expect(turned['T0/deflection']).toBe(straight['T0/deflection'])
      expect(turned['I/displacement-east']).not.toBe(straight['I/displacement-east'])
    })
  },
)

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { toEastNorth } from '#domain/reduction/inclinometer-axes.ts'
import type { Instrument } from '#domain/site/tables.ts'
import { deriveMeasured, type MeasuredPoint } from '../../published/derive-measured.ts'
import { amount, interval, near } from './made-measures.ts'

describe('traversed inclinometer', () => {
  const traverse = (points: readonly MeasuredPoint[], fixedEnd: Instrument['fixedEnd'] = 'toe') =>
    deriveMeasured({ instrument: { kind: 'traversed-inclinometer', fixedEnd }, points })

  test('a constant bias of the probe goes out of deviations and deflections, and twice into the checksum', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(amount, amount), { minLength: 1, maxLength: 8 }),
        amount,
        (faces, bias) => {
          const without = traverse(faces.map(([a0, a180], at) => interval(at, a0, a180)))
          const biased = traverse(faces.map(([a0, a180], at) => interval(at, a0 + bias, a180 + bias)))
          faces.forEach((_, at) => {
            near(biased[`T${at}/deviation-a`], without[`T${at}/deviation-a`] ?? Number.NaN, 1000)
            near(biased[`T${at}/deflection`], without[`T${at}/deflection`] ?? Number.NaN, 5000)
            near((biased[`T${at}/checksum-a`] ?? 0) - (without[`T${at}/checksum-a`] ?? 0), 2 * bias, 1000)
          })
        },
      ),
      { seed: 33 },
    )
  })

  test('one face alone gives no value, there and everywhere above', () => {
    const derived = traverse([interval(0, 1, -1), interval(1, 2, null), interval(2, 3, -3)])
    expect(derived).toMatchObject({
      'T0/deviation-a': 1,
      'T1/deviation-a': null,
      'T1/checksum-a': null,
      'T2/deflection': 3,
      'T1/deflection': null,
      'T0/deflection': null,
    })
  })

  test('the greatest deflection is that of the greatest magnitude, of all intervals or of none', () => {
    const bent = [interval(0, -9, 9, 0), interval(1, 2, -2, 0), interval(2, 3, -3, 0)]
    expect(traverse(bent)).toMatchObject({ 'T0/deflection': -4, 'T1/deflection': 5, 'I/deflection': 5 })
    expect(traverse([...bent, interval(3, 1, null, 0)])['I/deflection']).toBeNull()
    expect(traverse(bent, 'head')['I/deflection']).toBe(9)
  })

  test('the far end moves east and north as its deflections along A and B do', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(amount, amount, amount, amount, amount, amount), { minLength: 1, maxLength: 6 }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.constantFrom('clockwise' as const, 'counter-clockwise' as const),
        fc.constantFrom('toe' as const, 'head' as const),
        (readings, bearingDegrees, positiveB, fixedEnd) => {
          const derived = deriveMeasured({
            instrument: {
              kind: 'traversed-inclinometer',
              fixedEnd,
              axisBearingDegrees: bearingDegrees,
              positiveB,
            },
            points: readings.map(([a0, a180, b0, b180, zeroA, zeroB], at) => ({
              ...interval(at, a0, a180, zeroA),
              zeroDeviationBMm: zeroB,
              read: { 'face-a0': a0, 'face-a180': a180, 'face-b0': b0, 'face-b180': b180 },
            })),
          })
          const far = fixedEnd === 'toe' ? 'T0' : `T${readings.length - 1}`
          const a = derived[`${far}/deflection`] ?? Number.NaN
          const b = derived[`${far}/deflection-b`] ?? Number.NaN
          const { east, north } = toEastNorth(a, b, { bearingDegrees, positiveB })
          near(derived['I/displacement-east'], east, 5000)
          near(derived['I/displacement-north'], north, 5000)
        },
      ),
      { seed: 37 },
    )
  })

  test('no movement east and north without B, a zero survey of both axes, a bearing or all faces', () => {
    const made = (
      change: Partial<Instrument>,
      point: Partial<MeasuredPoint> = {},
      read: MeasuredPoint['read'] = {},
    ) =>
      Object.entries(
        deriveMeasured({
          instrument: {
            kind: 'traversed-inclinometer',
            fixedEnd: 'toe',
            axisBearingDegrees: 30,
            ...change,
          },
          points: [
            {
              ...interval(0, 1, -1, 0),
              zeroDeviationBMm: 0,
              ...point,
              read: { 'face-a0': 1, 'face-a180': -1, 'face-b0': 2, 'face-b180': -2, ...read },
            },
          ],
        }),
      ).filter(([id]) => id.includes('displacement'))
    expect(made({})).toHaveLength(2)
    expect(made({ axisBearingDegrees: null })).toEqual([])
    expect(made({}, { zeroDeviationBMm: null })).toEqual([])
    expect(made({}, {}, { 'face-b180': null })).toEqual([
      ['I/displacement-east', null],
      ['I/displacement-north', null],
    ])
  })

  test('no deflection without a zero survey', () => {
    const derived = traverse([interval(0, 1, -1, null)])
    expect(Object.keys(derived)).toEqual(['T0/checksum-a', 'T0/deviation-a'])
  })
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { deriveValues } from '#domain/reduction/derive-values.ts'
import { derivedBundles } from '#domain/reduction/derived-series.ts'
import { derivedTrail } from '#domain/reduction/derived-trail.ts'
import { toAxes, toEastNorth } from '#domain/reduction/inclinometer-axes.ts'
import { quality } from '#domain/reduction/quality.ts'
import type { Instrument } from '#domain/site/tables.ts'
import { deriveMeasured, type MeasuredPoint } from '../../published/derive-measured.ts'
import { handDifference } from './check-by-hand.ts'
import { instrumentRow, pointRow, sensorRow, thermalSplitBundle } from './sample-bundles.ts'
import { readingOf } from './sample-readings.ts'

const amount = fc.double({ min: -200, max: 200, noNaN: true })
const near = (value: number | null | undefined, expected: number, scale = 1) =>
  expect(Math.abs((value ?? Number.NaN) - expected)).toBeLessThanOrEqual(1e-10 * Math.max(1, scale))

const anchors = (readings: readonly (number | null)[]): MeasuredPoint[] =>
  readings.map((displacement, at) => ({ id: `A${at}`, depthMetres: 2.5 * (at + 1), read: { displacement } }))

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

describe('inclinometer axes', () => {
  test('turned to east and north and back are what they were', () => {
    fc.assert(
      fc.property(
        amount,
        amount,
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.constantFrom('clockwise' as const, 'counter-clockwise' as const),
        (a, b, bearingDegrees, positiveB) => {
          const axes = { bearingDegrees, positiveB }
          const back = toAxes(toEastNorth(a, b, axes), axes)
          near(back.a, a, 100)
          near(back.b, b, 100)
        },
      ),
      { seed: 32 },
    )
  })

  test('along the grid nothing of one axis is left in the other', () => {
    expect(toEastNorth(3, 4, { bearingDegrees: 180, positiveB: 'clockwise' })).toEqual({
      east: -4,
      north: -3,
    })
    expect(toEastNorth(3, 4, { bearingDegrees: 0, positiveB: 'counter-clockwise' })).toEqual({
      east: -4,
      north: 3,
    })
  })
})

const interval = (at: number, a0: number | null, a180: number | null, zero: number | null = 0) => ({
  id: `T${at}`,
  depthMetres: 0.25 + at / 2,
  gaugeLengthMetres: 0.5,
  zeroDeviationAMm: zero,
  read: { 'face-a0': a0, 'face-a180': a180 },
})

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

describe('piezometer string', () => {
  const stratum = (topLevelMetres: number, baseLevelMetres: number, unitWeightKnPerM3: number) => ({
    location: 'I-place',
    topLevelMetres,
    baseLevelMetres,
    stratum: 'clay',
    unitWeightKnPerM3,
    compressibilityM2PerKn: null,
    consolidationM2PerYear: null,
  })
  const tips: readonly MeasuredPoint[] = [
    { id: 'P0', depthMetres: 5, read: { 'pore-pressure': 40 } },
    { id: 'P1', depthMetres: 10, read: { 'pore-pressure': 100 } },
  ]
  const derive = (totalStressFrom: 'strata' | null, base: number) =>
    deriveMeasured({
      instrument: { kind: 'piezometer', location: 'I-place', totalStressFrom },
      unit: 'kPa',
      points: tips,
      strata: [stratum(0, -4, 18), stratum(-4, base, 20)],
    })

  test('gradient between neighbours, upward positive', () => {
    const derived = derive(null, -20)
    expect(Object.keys(derived)).toEqual(['P1/hydraulic-gradient'])
    near(derived['P1/hydraulic-gradient'], (100 - 40) / 9.81 / 5 - 1)
    const heavy = deriveMeasured({
      instrument: { kind: 'piezometer', location: 'I-place' },
      unit: 'kPa',
      points: tips,
      waterUnitWeightKnPerM3: 10.05,
    })
    near(heavy['P1/hydraulic-gradient'], (100 - 40) / 10.05 / 5 - 1)
  })

  test('stresses only where the instrument says that the strata hold, and only down to where they are known', () => {
    const derived = derive('strata', -20)
    near(derived['P0/effective-stress'], 4 * 18 + 1 * 20 - 40)
    near(derived['P1/pore-pressure-ratio'], 100 / (4 * 18 + 6 * 20))
    expect(() => derive('strata', -8)).toThrow('do not reach')
  })
})

describe('strut with a thermal factor', () => {
  test('its share and what is left add up to the mean of its gauges', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(amount, amount), { minLength: 1, maxLength: 5 }), (gauges) => {
        const derived = deriveMeasured({
          instrument: { kind: 'strut-load', thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC: 10 },
          unit: 'kN',
          points: gauges.map(([force, temperature], at) => ({ id: `G${at}`, read: { force, temperature } })),
        })
        const warmth = gauges.reduce((sum, [, temperature]) => sum + temperature, 0) / gauges.length
        near(derived['I/thermal-force'], 7.5 * (warmth - 10), 5000)
        const parts = (derived['I/thermal-force'] ?? 0) + (derived['I/force-less-thermal'] ?? 0)
        near(derived['I/force'], parts, 5000)
      }),
      { seed: 35 },
    )
  })

  test('keeps its split, from those that are left, where a gauge or a thermometer has died', () => {
    const split = (
      ...gauges: readonly { readonly force: number | null; readonly temperature: number | null }[]
    ) => {
      const bundle = thermalSplitBundle(gauges.length)
      const read = gauges.flatMap(({ force, temperature }, at) => [
        [`ST-1-${at + 1}/force`, { value: force, quality: 0 }] as const,
        [`ST-1-${at + 1}/temperature`, { value: temperature, quality: 0 }] as const,
      ])
      return deriveValues(bundle, new Map(read))
    }
    const whole = { force: 1000, temperature: 20 }
    // 7.5 kN for each kelvin above 12 °C: 60 kN at 20 °C.
    expect(split(whole, whole)).toEqual([
      { value: 60, quality: 0 },
      { value: 940, quality: 0 },
    ])
    // A dead gauge whose thermometer lives says no less of the warmth.
    expect(split(whole, { force: null, temperature: 24 })).toEqual([
      { value: 75, quality: 0 },
      { value: 925, quality: quality.incomplete },
    ])
    expect(split(whole, { force: null, temperature: null }, { force: 1100, temperature: 22 })).toEqual([
      { value: 67.5, quality: quality.incomplete },
      { value: 982.5, quality: quality.incomplete },
    ])
    expect(split({ force: 1000, temperature: null }, { force: 1000, temperature: null })).toEqual([
      { value: null, quality: quality.incomplete },
      { value: null, quality: quality.incomplete },
    ])
  })

  test('its trail checks by hand and says that some stand for the others', () => {
    const bundle = thermalSplitBundle(3)
    const read = (id: string, raw: number, unit: string) =>
      readingOf({ series: id, raw, rawUnit: unit, unit }, [
        { kind: 'linear', parameters: { factor: 1, offset: 0, unit } },
      ])
    const trail = derivedTrail(bundle, 'ST-1/force-less-thermal', 600_000, [
      read('ST-1-1/force', 1000.5, 'kN'),
      read('ST-1-1/temperature', 21.3, 'degC'),
      read('ST-1-3/force', 1210, 'kN'),
      read('ST-1-3/temperature', 18.1, 'degC'),
    ])
    expect(trail.value).toBeCloseTo((1000.5 + 1210) / 2 - 7.5 * ((21.3 + 18.1) / 2 - 12), 9)
    // Of each 0.3: forces 0.3/√2, warmth 7.5 · 0.3/√2.
    expect(trail.standardUncertainty).toBeCloseTo(Math.hypot(0.3, 7.5 * 0.3) / Math.SQRT2, 9)
    for (const { sentence } of trail.derived) expect(handDifference(sentence), sentence).toBeLessThan(1e-9)
    expect(trail.derived[0]?.sentence).toContain(
      'Mean of 2 of 3 thermometers, the others stand for the 1 without a value',
    )
    expect(trail.cautions).toContain(
      'ST-1/force-less-thermal: Made from fewer members than it should be, or not made because one was missing.',
    )
  })

  test('takes the companion of its gauges where none has a thermometer of its own', () => {
    const made = derivedBundles({
      instruments: [
        { ...instrumentRow('ST', 'strut-load'), thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC: 10 },
        instrumentRow('AT', 'air-temperature'),
      ],
      points: [pointRow('G0', 'ST', 0), pointRow('G1', 'ST', 0), pointRow('A1', 'AT', 0)],
      sensors: [
        ...['G0', 'G1'].map((id) => ({
          ...sensorRow(id, 'force', 'kN'),
          temperatureSensor: 'A1/temperature',
        })),
        sensorRow('A1', 'temperature', 'degC'),
      ],
      locations: [],
      strata: [],
    })
    expect(made.ok && made.value[1]?.slots.map(({ series }) => series)).toEqual([
      ['G0/force'],
      ['G1/force'],
      ['A1/temperature'],
    ])
  })

  test('is refused without the temperature at which its share is nil', () => {
    const site = (thermalReferenceDegC: number | null) => ({
      instruments: [
        { ...instrumentRow('ST', 'strut-load'), thermalFactorKnPerKelvin: 7.5, thermalReferenceDegC },
      ],
      points: [pointRow('G0', 'ST', 0), pointRow('G1', 'ST', 0)],
      sensors: ['G0', 'G1'].flatMap((id) => [
        sensorRow(id, 'force', 'kN'),
        sensorRow(id, 'temperature', 'degC'),
      ]),
      locations: [],
      strata: [],
    })
    const made = derivedBundles(site(10))
    expect(made.ok && made.value.flatMap(({ outputs }) => outputs.map(({ id }) => id))).toEqual([
      'ST/force',
      'ST/thermal-force',
      'ST/force-less-thermal',
    ])
    const without = derivedBundles(site(null))
    expect(without.ok ? [] : without.issues.map(({ code }) => code)).toEqual(['thermal-reference-expected'])
  })
})

describe('records that are refused', () => {
  const codes = (
    instrument: Partial<Instrument> & Pick<Instrument, 'kind'>,
    points: readonly MeasuredPoint[],
    others: readonly MeasuredPoint[] = [],
    location = {},
  ) => {
    try {
      deriveMeasured({ instrument, points, others, location })
      return 'taken'
    } catch (error) {
      return (error as Error).message
    }
  }
  const head = {
    kind: 'extensometer',
    fixedEnd: 'surveyed-head',
    anchorPositive: 'apart',
    surveyedPoint: 'SP',
    surveyMaximumAgeDays: 30,
  } as const
  const surveyed: readonly MeasuredPoint[] = [{ id: 'SP', read: { settlement: 1 } }]
  const segments = (depth: number): MeasuredPoint[] =>
    [1, depth].map((depthMetres, at) => ({ id: `T${at}`, depthMetres, read: { 'inclination-a': 1 } }))
  const inclinometer = { kind: 'in-place-inclinometer', fixedEnd: 'toe' } as const

  test.each([
    ['a surveyed head without its point', { ...head, surveyedPoint: null }, 'names no point'],
    ['or without an age', { ...head, surveyMaximumAgeDays: null }, 'how long a survey may stand'],
    ['or without a sense', { ...head, anchorPositive: null }, 'apart or come together'],
  ])('%s', (_, instrument, words) => {
    expect(codes(head, anchors([1]), surveyed)).toBe('taken')
    expect(codes(instrument, anchors([1]), surveyed)).toContain(words)
  })

  test('a surveyed head of a raked hole, and one that nobody surveys', () => {
    expect(codes(head, anchors([1]), surveyed, { dipDegrees: 60 })).toContain('dips 60 degrees')
    expect(codes(head, anchors([1]))).toContain('has no series of settlement')
  })

  test('anchors at one depth', () => {
    const both = anchors([1, 2]).map((anchor) => ({ ...anchor, depthMetres: 4 }))
    expect(codes({ kind: 'extensometer', anchorPositive: 'apart' }, both)).toContain('no length to strain')
  })

  test('segments that leave a gap or overlap', () => {
    expect(codes(inclinometer, segments(3))).toBe('taken')
    expect(codes(inclinometer, segments(3.005))).toBe('taken')
    expect(codes(inclinometer, segments(3.5))).toContain('leave a gap of 0.5 m')
    expect(codes(inclinometer, segments(2.8))).toContain('overlap by 0.2 m')
  })

  test('a zero survey that some intervals lack', () => {
    expect(
      codes({ kind: 'traversed-inclinometer', fixedEnd: 'toe' }, [
        interval(0, 1, 1),
        interval(1, 1, 1, null),
      ]),
    ).toContain('no deviation of the zero survey')
  })
})

import { expect, test } from 'vitest'
import type { SiteDocument } from '#contract/site-document.ts'
import type { SeriesState } from '#contract/state-document.ts'
import { openSiteGrid } from '#domain/geometry/site-grid.ts'
import { sectionFromSite } from '../../../../web/views/section/section-from-site.ts'

const opened = openSiteGrid('EPSG:3857')
if (!opened.ok) throw new Error('the grid of the test cannot be opened')

const point = (id: string, instrument: string, kind: string, changes = {}) => ({
  id,
  instrument,
  kind,
  eastingMetres: 10,
  northingMetres: 0,
  levelMetres: 4,
  depthMetres: 0,
  gaugeLengthMetres: null,
  retiredAtEpochMs: null,
  primarySeries: null,
  ...changes,
})
const document = {
  facts: { verticalDatum: 'd', timeZone: 'UTC', groundLevelMetres: 4, levelNames: ['One'] },
  works: { type: 'FeatureCollection', features: [] },
  strata: [],
  wells: [],
  pumpingRates: [],
  locations: [
    {
      id: 'IP-9',
      kind: 'hole',
      eastingMetres: 10,
      northingMetres: 0,
      collarLevelMetres: 4,
      azimuthDegrees: 0,
      dipDegrees: 90,
      lengthMetres: 4,
    },
  ],
  instruments: [
    {
      id: 'IP-9',
      kind: 'in-place-inclinometer',
      location: 'IP-9',
      axisBearingDegrees: 90,
      fixedEnd: 'toe',
      points: ['IP-9-1', 'IP-9-2'],
    },
  ],
  points: [
    point('ST-9', 'ST-9', 'strut-load', { primarySeries: 1 }),
    point('ST-9-1', 'ST-9', 'strut-load', { primarySeries: 2 }),
    point('SP-9', 'SP-9', 'settlement-point', { retiredAtEpochMs: 50 }),
    point('BA-9', 'BA-9', 'barometer'),
    point('IP-9-1', 'IP-9', 'in-place-inclinometer', { depthMetres: 1, gaugeLengthMetres: 2 }),
    point('IP-9-2', 'IP-9', 'in-place-inclinometer', { depthMetres: 3, gaugeLengthMetres: 2 }),
  ],
  series: [
    {
      series: 1,
      id: 'ST-9/force',
      point: 'ST-9',
      measure: 'force',
      unit: 'kN',
      decimals: 1,
      standardUncertainty: 15,
    },
    { series: 11, id: 'IP-9-1/inclination-a', point: 'IP-9-1', measure: 'inclination-a' },
    { series: 12, id: 'IP-9-2/inclination-a', point: 'IP-9-2', measure: 'inclination-a' },
  ],
  verdicts: [],
  verdictWithdrawals: [],
} as unknown as SiteDocument
const state = (series: number, value: number) =>
  ({ series, value, atEpochMs: 90, late: false, level: 0 }) as unknown as SeriesState
const states = new Map([
  [1, state(1, 2000)],
  [11, state(11, 3)],
  [12, state(12, 5)],
])
const cut = (line: readonly (readonly [number, number])[], shown = document, known = states) =>
  sectionFromSite(shown, opened.value, known, {
    line,
    clockEpochMs: 100,
    offsetLimitMetres: 10,
    joinLayersWithinMetres: 30,
    trueScale: false,
    movementExaggeration: 100,
    selectedPoint: null,
    remarks: [],
    waiting: false,
  })
const eastwards = [
  [0, 0],
  [100, 0],
] as const

test('a strut is shown once, a retired mark and the weather not at all', () => {
  expect(cut(eastwards).points.map((one) => [one.point, one.value, one.ageMs, one.standing])).toEqual([
    ['ST-9', 2000, 10, 'within'],
  ])
})

test('a place whose series ended is not shown either, and is until then', () => {
  const ended = (endedAtEpochMs: number) =>
    cut(eastwards, {
      ...document,
      series: document.series.map((one) => ({ ...one, endedAtEpochMs })),
    }).points.map((one) => one.point)
  expect(ended(100)).toEqual([])
  expect(ended(101)).toEqual(['ST-9'])
})

test('a casing that leans east by 8 mm moves along a line to the east, back along one to the west', () => {
  const top = (line: readonly (readonly [number, number])[]) =>
    cut(line).shapes[0]?.places[0]?.alongMillimetres
  expect(top(eastwards)).toBeCloseTo(8, 9)
  expect(top(eastwards.toReversed())).toBeCloseTo(-8, 9)
})

test('its B axis lies on the side that the instrument says', () => {
  const northwards = [
    [10, -50],
    [10, 50],
  ] as const
  const withB = (positiveB: string | null) =>
    ({
      ...document,
      instruments: document.instruments.map((one) => ({ ...one, positiveB })),
      series: [
        ...document.series,
        { series: 13, id: 'IP-9-1/inclination-b', point: 'IP-9-1', measure: 'inclination-b' },
        { series: 14, id: 'IP-9-2/inclination-b', point: 'IP-9-2', measure: 'inclination-b' },
      ],
    }) as unknown as SiteDocument
  const known = new Map([...states, [13, state(13, 2)], [14, state(14, 1)]])
  const top = (positiveB: string | null) =>
    cut(northwards, withB(positiveB), known).shapes[0]?.places[0]?.alongMillimetres
  // A looks east, so B looks south unless it is told to look north.
  expect(top(null)).toBeCloseTo(-3, 9)
  expect(top('clockwise')).toBeCloseTo(-3, 9)
  expect(top('counter-clockwise')).toBeCloseTo(3, 9)
})

test('square to the line, and without its B axis, its movement in the section is not known and not drawn', () => {
  expect(
    cut([
      [10, -50],
      [10, 50],
    ]).shapes,
  ).toEqual([])
})

test('while states are worked out no point looks judged', () => {
  const props = sectionFromSite(document, opened.value, new Map(), { ...cut(eastwards), line: eastwards })
  expect(props.points.map((one) => one.standing)).toEqual(['unknown'])
})

test('a traversed casing bends by its published deflections, at the ends away from the still one', () => {
  const traversed = {
    ...document,
    instruments: document.instruments.map((one) => ({ ...one, kind: 'traversed-inclinometer' })),
    series: [
      { series: 21, id: 'IP-9-1/deflection', point: 'IP-9-1', measure: 'deflection' },
      { series: 22, id: 'IP-9-2/deflection', point: 'IP-9-2', measure: 'deflection' },
    ],
  } as unknown as SiteDocument
  const known = new Map([
    [21, state(21, 8)],
    [22, state(22, 5)],
  ])
  expect(cut(eastwards, traversed, known).shapes[0]?.places).toEqual([
    { depthMetres: 0, alongMillimetres: expect.closeTo(8, 9) },
    { depthMetres: 2, alongMillimetres: expect.closeTo(5, 9) },
  ])
})

test('the greatest deflection of a traversed casing is no place of its shape', () => {
  const traversed = {
    ...document,
    instruments: document.instruments.map((one) => ({
      ...one,
      kind: 'traversed-inclinometer',
      points: ['IP-9', ...one.points],
    })),
    points: [...document.points, point('IP-9', 'IP-9', 'traversed-inclinometer')],
    series: [
      { series: 20, id: 'IP-9/deflection', point: 'IP-9', measure: 'deflection' },
      { series: 21, id: 'IP-9-1/deflection', point: 'IP-9-1', measure: 'deflection' },
      { series: 22, id: 'IP-9-2/deflection', point: 'IP-9-2', measure: 'deflection' },
    ],
  } as unknown as SiteDocument
  const known = new Map([
    [20, state(20, 5)],
    [21, state(21, 1)],
    [22, state(22, 5)],
  ])
  expect(cut(eastwards, traversed, known).shapes[0]?.places).toEqual([
    { depthMetres: 0, alongMillimetres: expect.closeTo(1, 9) },
    { depthMetres: 2, alongMillimetres: expect.closeTo(5, 9) },
  ])
})

test('grooves that turn by 90° put what is read along A onto B, whichever way B is positive', () => {
  const northwards = [
    [10, -50],
    [10, 50],
  ] as const
  const turned = (positiveB: string, a: number, b: number) => {
    const shown = {
      ...document,
      instruments: document.instruments.map((one) => ({ ...one, positiveB })),
      points: document.points.map((one) => ({ ...one, grooveTurnDegrees: 90 })),
      series: [
        ...document.series,
        { series: 13, id: 'IP-9-1/inclination-b', point: 'IP-9-1', measure: 'inclination-b' },
        { series: 14, id: 'IP-9-2/inclination-b', point: 'IP-9-2', measure: 'inclination-b' },
      ],
    } as unknown as SiteDocument
    const known = new Map([11, 12, 13, 14].map((one) => [one, state(one, one < 13 ? a : b)]))
    const top = (line: readonly (readonly [number, number])[]) =>
      cut(line, shown, known).shapes[0]?.places[0]?.alongMillimetres
    return [top(eastwards), top(northwards)]
  }
  // The casing's A bears east at the top; turned 90° clockwise it reads southwards, and a clockwise B westwards.
  expect(turned('clockwise', 2, 0)).toEqual([expect.closeTo(0, 9), expect.closeTo(-4, 9)])
  expect(turned('clockwise', 0, 2)).toEqual([expect.closeTo(-4, 9), expect.closeTo(0, 9)])
  expect(turned('counter-clockwise', 2, 0)).toEqual([expect.closeTo(0, 9), expect.closeTo(-4, 9)])
  expect(turned('counter-clockwise', 0, 2)).toEqual([expect.closeTo(4, 9), expect.closeTo(0, 9)])
})

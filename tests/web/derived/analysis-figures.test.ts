import { describe, expect, test } from 'vitest'
import { stationOf } from '#domain/geometry/alignment.ts'
import { betweenTwoPoints } from '#domain/ground/between-two-points.ts'
import { compareSettlement } from '#domain/ground/consolidation/computed-and-measured.ts'
import { settlementFromPressures } from '#domain/ground/consolidation/settlement-from-pressures.ts'
import { settlementForecasts } from '#domain/ground/embankments/settlement-forecasts.ts'
import { facadeResponse } from '#domain/ground/facade-response.ts'
import { drawdownMetres } from '#domain/ground/groundwater/drawdown.ts'
import { compareDrawdown } from '#domain/ground/groundwater/measured-drawdown.ts'
import { fitTheis } from '#domain/ground/groundwater/pumping-test.ts'
import { phreaticSection } from '#domain/ground/groundwater/water-line.ts'
import { waterPlane } from '#domain/ground/groundwater/water-plane.ts'
import { forecastFailure } from '#domain/ground/slopes/failure-forecast.ts'
import { movementReadings } from '#domain/ground/slopes/movement-reading.ts'
import { presentVelocity } from '#domain/ground/slopes/present-velocity.ts'
import { gaussianTrough, settlementAt } from '#domain/ground/trough.ts'
import { buildingResponse } from '#domain/ground/troughs/building-response.ts'
import { fitLongitudinalTrough } from '#domain/ground/troughs/fit-longitudinal.ts'
import { settlementAlong } from '#domain/ground/troughs/settlement-along.ts'
import { troughAcross } from '#domain/ground/troughs/trough-across.ts'
import { troughBehindWall } from '#domain/ground/troughs/trough-behind-wall.ts'
import { troughsAlong } from '#domain/ground/troughs/troughs-along.ts'
import { widthsWithDepth } from '#domain/ground/troughs/width-with-depth.ts'
import { normalTail } from '#domain/statistics/normal-tail.ts'
import { buildingFigure, facadeFigure } from '../../../web/derived/figures/building-figures.ts'
import { comparedSettlementFigure, excessFigure } from '../../../web/derived/figures/consolidation-figures.ts'
import { drawdownFigure } from '../../../web/derived/figures/drawdown-figure.ts'
import { longitudinalFigure } from '../../../web/derived/figures/longitudinal-figure.ts'
import { pairFigure } from '../../../web/derived/figures/pair-figure.ts'
import { pumpingTestFigure } from '../../../web/derived/figures/pumping-test-figure.ts'
import { settlementAlongFigure } from '../../../web/derived/figures/settlement-along-figure.ts'
import { settlementForecastFigures } from '../../../web/derived/figures/settlement-forecast-figures.ts'
import { inverseVelocityFigure, velocityFigure } from '../../../web/derived/figures/slope-figures.ts'
import { troughFigure } from '../../../web/derived/figures/trough-figure.ts'
import { volumeLossFigure } from '../../../web/derived/figures/volume-loss-figure.ts'
import { wallFigures } from '../../../web/derived/figures/wall-figures.ts'
import { gradientFigure, phreaticFigure } from '../../../web/derived/figures/water-figures.ts'
import { widthWithDepthFigure } from '../../../web/derived/figures/width-with-depth-figure.ts'
import type { FigureProps } from '../../../web/views/figure/figure-props.ts'
import { figureScene } from '../../../web/views/figure/scene.ts'

const day = 86_400_000
const options = { title: 'A figure.', selected: null, timeZone: 'UTC' }
const size = { widthPixels: 600, heightPixels: 500, fontPixels: 13 }
const drive = { diameterMetres: 6, axisDepthMetres: 20, volumeLoss: 0.012, widthParameter: 0.5 }
const trough = gaussianTrough(drive)
const point = { standardUncertaintyMm: 0.4, late: false }

const places = [-30, -20, -12, -6, 0, 6, 12, 20, 30].map((offset, at) => ({
  ...point,
  id: `S${at}`,
  eastingMetres: offset,
  northingMetres: 50,
  depthMetres: 0,
  settlementMm: settlementAt(trough, offset - 1) + (at % 3) / 5,
  late: at === 2,
}))
const settledAt = (id: string, eastingMetres: number) => ({
  ...point,
  id,
  eastingMetres,
  northingMetres: 0,
  settlementMm: eastingMetres / 4,
  readAtEpochMs: null,
})
const line = [
  [0, 0],
  [0, 100],
] as const
const across = troughAcross(places, (place) => stationOf(line, place), {
  chainageMetres: 50,
  withinMetres: 5,
  pointDepthMetres: 0,
  drive,
})
const layer = {
  name: 'clay',
  topLevelMetres: 10,
  baseLevelMetres: 0,
  compressibilityM2PerMn: 0.5,
  drainsAtTop: true,
  drainsAtBase: true,
}
const consolidated = settlementFromPressures(
  [layer],
  [8, 5, 2].map((levelMetres, at) => ({
    id: `T${at}`,
    levelMetres,
    excessAtStartKpa: 40,
    excessNowKpa: 10 + at,
    late: at === 2,
  })),
)
const days = Array.from({ length: 18 }, (_, step) => step / 2)
const instants = days.map((at) => at * day)
const running = movementReadings(
  instants,
  days.map((t, at) => (at === 3 ? null : -20 * Math.log(1 - t / 10))),
)
const forecasts = settlementForecasts(
  [-10, 0, 20, 50, 90, 140, 200, 300].map((at) => at * day),
  [0, 0, 100, 190, 280, 350, 400, 440],
  { loadedAtEpochMs: 0, window: { fromDays: 0, untilDays: null }, intervalDays: 25 },
)
const wells = [
  [0, 0],
  [100, 0],
  [0, 80],
  [90, 70],
  [40, 30],
].map(([e = 0, n = 0], at) => ({
  id: `W${at}`,
  eastingMetres: 5e5 + e,
  northingMetres: 4e6 + n,
  headMetres: 20 - 0.01 * e + 0.001 * (at % 2),
  late: false,
}))
const tip = (id: string, chainageMetres: number, late = false) => ({
  id,
  stratum: 'sand',
  chainageMetres,
  offsetMetres: 0,
  piezometricLevelMetres: 5 as number | null,
  late,
})

const alongDrive = troughsAlong(
  [0, 20, 40].flatMap((northing) => places.map((place) => ({ ...place, northingMetres: northing + 5 }))),
  (place) => stationOf(line, place),
  { fromMetres: 0, untilMetres: 100, stepMetres: 10 },
  { pointDepthMetres: 0, drive },
)
const pumped = fitTheis({
  ratePerTime: 500,
  radiusMetres: 30,
  readings: [0, 0.01, 0.05, 0.1, 0.5, 1, 2].map((time, at) => ({
    time,
    drawdownMetres: drawdownMetres({ transmissivity: 400, storativity: 2e-4 }, 500, 30, time) + at / 1000,
  })),
})

const drawn: readonly (readonly [string, FigureProps, leftOut: number])[] = [
  ['trough', troughFigure(across, options), 1],
  ['volume loss', volumeLossFigure(alongDrive, 0.012, options), 0],
  ['pumping test', pumpingTestFigure(pumped, { ...options, timeUnit: 'd' }), 1],
  [
    'longitudinal',
    longitudinalFigure(
      fitLongitudinalTrough(
        [-50, -30, -15, -5, 0, 5, 15, 30, 50].map((aheadOfFaceMetres, at) => ({
          id: 'P',
          aheadOfFaceMetres,
          settlementMm: 15 * normalTail(aheadOfFaceMetres / 12),
          late: at === 0,
        })),
      ),
      options,
    ),
    1,
  ],
  [
    'widths',
    widthWithDepthFigure(
      widthsWithDepth([{ depthMetres: 5, widthMetres: { value: 8, standardError: 0.1 } }], drive),
      options,
    ),
    0,
  ],
  ...wallFigures(
    troughBehindWall(
      [0, 3, 6, 9, 12].map((depthMetres, at) => ({ depthMetres, inwardMm: [4, 12, 20, 22, 10][at] ?? 0 })),
      10,
      [
        { ...point, id: 'B1', distanceMetres: 5, settlementMm: 15 },
        { ...point, id: 'B2', distanceMetres: 9, settlementMm: 9, late: true },
      ],
    ),
    options,
  ).map((figure, at) => [`wall ${at}`, figure, at] as const),
  ['excess', excessFigure(consolidated, options), 1],
  [
    'compared',
    comparedSettlementFigure(
      compareSettlement({ settlementMm: 20 }, [
        { ...point, id: 'E1', settlementMm: 22 },
        { ...point, id: 'E2', settlementMm: 12, late: true },
      ]),
      options,
    ),
    1,
  ],
  ...settlementForecastFigures(forecasts, options).map(
    (figure, at) => [`forecast ${at}`, figure, 1 - at] as const,
  ),
  ['inverse velocity', inverseVelocityFigure(forecastFailure(running, 2), options), 0],
  ['velocity', velocityFigure(presentVelocity(running, 4 * day), options), 7],
  [
    'drawdown',
    drawdownFigure(
      compareDrawdown(
        { transmissivity: 400, storativity: 2e-4 },
        [
          {
            id: 'W',
            eastingMetres: 0,
            northingMetres: 0,
            radiusMetres: 0.1,
            rates: [{ from: 0, ratePerTime: 500 }],
          },
        ],
        null,
        [0.5, 1, 2].map((time, at) => ({
          id: 'P',
          eastingMetres: 30,
          northingMetres: 0,
          time,
          drawdownMetres: 1 + at / 10,
          standardUncertaintyMetres: null,
          late: at === 2,
        })),
      ),
      { ...options, timeUnit: 'd' },
    ),
    1,
  ],
  [
    'gradient',
    gradientFigure(
      waterPlane([...wells, { ...wells[0], id: 'L', late: true } as (typeof wells)[0]]),
      options,
    ),
    1,
  ],
  [
    'phreatic',
    phreaticFigure(
      phreaticSection(
        [tip('A', 0), tip('B', 20), tip('C', 40, true)],
        [{ name: 'wall', chainageMetres: 30 }],
        50,
      ),
      options,
    ),
    1,
  ],
  [
    'building',
    buildingFigure(
      buildingResponse(trough, 20, {
        id: 'B',
        fromOffsetMetres: 4,
        toOffsetMetres: 26,
        heightMetres: 10,
        stiffnessRatio: 2.6,
      }),
      trough,
      options,
    ),
    0,
  ],
  [
    'settlement along an alignment',
    settlementAlongFigure(
      settlementAlong(places, (place) => stationOf(line, place), { drive, withinMetres: 15 }),
      (id) => (id === 'S4' ? { low: 2, high: 5, stage: 'by the end of “one”' } : null),
      options,
    ),
    1,
  ],
  [
    'façade',
    facadeFigure(
      facadeResponse(
        [15, 0, 5, 10].map((chainageMetres, at) => ({
          ...point,
          id: `F${at}`,
          chainageMetres,
          settlementMm: at,
          late: at === 3,
        })),
        { heightMetres: 8, stiffnessRatio: 2.6 },
      ),
      options,
    ),
    1,
  ],
  [
    'two points',
    pairFigure(betweenTwoPoints(settledAt('A', 0), settledAt('B', 20), settledAt('M', 5), false), options),
    0,
  ],
]

describe.each(drawn)('the figure of %s', (_, figure, leftOut) => {
  test('is drawn, with every number a number and a table of the same', () => {
    expect(figure.message).toBeNull()
    expect(figure.curves.length + figure.points.length).toBeGreaterThan(0)
    expect(JSON.stringify(figureScene(figure, size))).not.toMatch(/NaN|Infinity|null,null/)
    expect(figure.table.rows.length).toBeGreaterThan(0)
    for (const row of figure.table.rows) expect(row).toHaveLength(figure.table.headings.length)
  })
  test('draws hollow what is left out, and says why', () => {
    const hollow = figure.points.filter((one) => one.leftOut)
    expect(hollow).toHaveLength(leftOut)
    for (const { says } of hollow) expect(says).toMatch(/left out\. [A-Z].+\.$/)
  })
})

test('troughs along a drive keep to their own strips and say where there is none', () => {
  expect(alongDrive.map(({ trough: found }) => found.ok)).toEqual(
    [true, false, true, false, true].concat(Array(5).fill(false)),
  )
})

test('stages of the works stand in figures of time, and in no other', () => {
  const staged = { ...options, stages: [{ name: 'dig', startsAtEpochMs: day }] }
  const rules = (figure: FigureProps) => figure.rules.filter(({ name }) => name === 'dig').length
  expect(rules(velocityFigure(presentVelocity(running, 4 * day), staged))).toBe(1)
  expect(rules(troughFigure(across, staged))).toBe(0)
})

test('a refusal draws nothing and gives its reason', () => {
  const steady = forecastFailure(
    movementReadings(
      instants,
      days.map((at) => at),
    ),
    2,
  )
  const figure = inverseVelocityFigure(steady, options)
  expect(figure.message).toContain('Refused')
  expect(figure.curves).toEqual([])
  expect(figure.remarks.length).toBeGreaterThan(0)
})

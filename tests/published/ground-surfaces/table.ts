import { readFileSync } from 'node:fs'
import { meshContours } from '#domain/ground/contours.ts'
import { areaAndCentroid } from '#domain/ground/convex-hull.ts'
import { gridMesh } from '#domain/ground/grid-mesh.ts'
import { inverseDistanceValue } from '#domain/ground/inverse-distance.ts'
import type { Drift } from '#domain/ground/kriging/drift.ts'
import { krigeAt, krigingWeights } from '#domain/ground/kriging/krige-at.ts'
import { krigedSurfaceSteps } from '#domain/ground/kriging/kriged-surface.ts'
import { buildSystem, type KrigingPoint } from '#domain/ground/kriging/kriging-system.ts'
import { leaveOneOut } from '#domain/ground/kriging/leave-one-out.ts'
import { placesOf } from '#domain/ground/kriging/places-of-points.ts'
import { restrictedLogLikelihood } from '#domain/ground/kriging/restricted-likelihood.ts'
import { semivariance, type Variogram } from '#domain/ground/kriging/variogram.ts'
import { naturalNeighbourWeights } from '#domain/ground/natural-neighbours.ts'
import { buildSettlementSurface } from '#domain/ground/settlement-surface.ts'
import { surfaceAt } from '#domain/ground/surface-at.ts'
import { surfaceVolume } from '#domain/ground/surface-volume.ts'
import type { ValueGrid } from '#domain/ground/value-grid.ts'
import { finishSteps } from '../../support/finish-steps.ts'
import { accepted } from '../accepted.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { groundSurfaceRows, synth40 } from './rows.ts'

const variogram = (more: Partial<Variogram>): Variogram => ({
  shape: 'exponential',
  partialSill: 10,
  rangeMetres: 10 / 3,
  nugget: 0,
  anisotropy: null,
  ...more,
})
const line = variogram({ shape: 'spherical', partialSill: 20, rangeMetres: 30 })
const synthetic = variogram({ shape: 'spherical', partialSill: 110, rangeMetres: 400, nugget: 4 })

/** The reference grid, a row a node, by its columns' names. */
const synthGrid = (() => {
  const [header = '', ...lines] = readFileSync(new URL('./synth40-grid.csv', import.meta.url), 'utf8')
    .trim()
    .split('\n')
  const names = header.split(',')
  return lines.map((line): Readonly<Record<string, number>> => {
    const numbers = line.split(',').map(Number)
    return Object.fromEntries(names.map((name, at) => [name, numbers[at] ?? Number.NaN]))
  })
})()

/** Nodes at which ours is not that of a column of the reference grid. */
const differing = (column: string, ours: readonly number[]) =>
  synthGrid.filter((node, at) => {
    const theirs = node[column] ?? Number.NaN
    return !(Math.abs((ours[at] ?? Number.NaN) - theirs) <= 2e-7 + 1e-6 * Math.abs(theirs))
  })

export const groundSurfaces: PublishedTable = {
  area: 'ground surfaces',
  rows: groundSurfaceRows,
  computed: {
    'KRG-01': ({ x, y, target }) =>
      x.map((east: number, index: number) =>
        Math.hypot(...(subtract([east, y[index]], target) as [number, number])),
      ),
    'KRG-02': (inputs) => krigingWeights(systemOf(inputs, variogram({})), ...target(inputs)),
    'KRG-03': (inputs) => kriged(inputs, variogram({})).estimate,
    'KRG-04': (inputs) => kriged(inputs, variogram({})).variance,
    'KRG-07': (inputs) => kriged(inputs, variogram({ partialSill: 20 })),
    'KRG-09': (inputs) => kriged(inputs, variogram({ partialSill: 5, nugget: 5 })),
    'KRG-11': (inputs) => kriged(inputs, variogram({ shape: 'gaussian', rangeMetres: 10 / Math.sqrt(3) })),
    'KRG-12': (inputs) => kriged(inputs, variogram({ shape: 'power', partialSill: 1, rangeMetres: 1 })),
    'KRG-13': (inputs) => kriged(inputs, variogram({}), { knownMean: inputs.mean }),
    'KRG-14': (inputs) => kriged(inputs, variogram({}), 'plane'),
    'KRG-15': (inputs) => kriged(inputs, variogram({ anisotropy: anisotropyOf(inputs) })),
    'KRG-16': (inputs) => kriged(inputs, variogram({ anisotropy: anisotropyOf(inputs) })),
    'KRG-20': (inputs) => kriged(inputs, variogram({ partialSill: 5, nugget: 5 })),
    'KRG-21': (inputs) => kriged(inputs, variogram({ partialSill: 5, nugget: 5 })),
    'KRG-22': (inputs) => kriged(inputs, variogram({ partialSill: 5 }), 'mean', 5),
    'KRG-23': (inputs) => kriged(inputs, variogram({})),
    'KRG-24': (inputs) => duplicated(inputs, variogram({}), 0),
    'KRG-25': (inputs) => duplicated(inputs, variogram({ partialSill: 5 }), 5),
    'KRG-26': (inputs) => kriged(inputs, line),
    'KRG-27': (inputs) => kriged(inputs, line),
    'KRG-29': (inputs) => kriged(inputs, line, 'slope-east'),
    'KRG-30': (inputs) => kriged(inputs, { ...line, partialSill: 1, rangeMetres: 10 }),
    'KRG-32': (inputs) => kriged(inputs, { ...line, partialSill: 1, rangeMetres: 20 }),
    'IDW-01': inverseDistance,
    'IDW-02': inverseDistance,
    'IDW-03': inverseDistance,
    'IDW-04': inverseDistance,
    'IDW-05': inverseDistance,
    'IDW-06': inverseDistance,
    'VAR-01': ({ h }) => semivariance({ ...line, partialSill: 1, rangeMetres: 10 }, h),
    'VAR-02': ({ h }) => semivariance({ ...line, partialSill: 1, rangeMetres: 10 }, h),
    'VAR-04': ({ h = 10 }) =>
      semivariance(variogram({ shape: 'gaussian', partialSill: 1, rangeMetres: 10 / Math.sqrt(3) }), h),
    'VAR-05': ({ h = 5 }) => semivariance(variogram({ partialSill: 1 }), h),
    'SYN-01': () => {
      const off = (column: string, found: { readonly estimate: number[]; readonly variance: number[] }) =>
        [...differing(`${column}_pred`, found.estimate), ...differing(`${column}_var`, found.variance)].length
      const along = { ...synthetic, rangeMetres: 600, anisotropy: { azimuthDegrees: 90, ratio: 0.4 } }
      const nodes = synthGrid.map(({ x, y }): [number, number] => [x as number, y as number])
      return {
        nodes: nodes.length,
        ok: off('ok', synth(nodes, synthetic)),
        err: off('err', synth(nodes, { ...synthetic, nugget: 0 }, 'mean', 4)),
        exp: off('exp', synth(nodes, { ...synthetic, shape: 'exponential', rangeMetres: 150 })),
        uk: off('uk', synth(nodes, synthetic, 'plane')),
        aniso: off('aniso', synth(nodes, along)),
        idw2: differing(
          'idw2',
          nodes.map(([east, north]) => inverseDistanceValue(synthPoints(0), east, north, 2)),
        ).length,
      }
    },
    'ANI-01': ({ targets }) =>
      synth(targets, {
        ...synthetic,
        shape: 'exponential',
        rangeMetres: 200,
        anisotropy: { azimuthDegrees: 30, ratio: 0.5 },
      }),
    'ANI-02': ({ targets }) =>
      synth(
        targets,
        { ...synthetic, rangeMetres: 500, anisotropy: { azimuthDegrees: 120, ratio: 0.35 } },
        'plane',
      ),
    'ANI-03': ({ azimuth_deg, ratio, range_m, range_without_m, nugget_of_whole: nugget }) => {
      const by = (rangeMetres: number, anisotropy: Variogram['anisotropy']) =>
        restrictedLogLikelihood(
          synthPoints(0),
          { shape: 'exponential', rangeMetres, anisotropy, nuggetShare: nugget / (1 - nugget) },
          new Float64Array(synth40.length),
        )
      return azimuth_deg.map(
        (azimuthDegrees: number, index: number) =>
          2 * (by(range_m, { azimuthDegrees, ratio: ratio[index] }) - by(range_without_m, null)),
      )
    },
    'KRG-18': ({ block: [wide, tall], ...inputs }) => {
      const system = systemOf(inputs, variogram({}))
      const [east, north] = target(inputs)
      const shares = [-0.375, -0.125, 0.125, 0.375]
      const estimates = shares.flatMap((x) =>
        shares.map((y) => krigeAt(system, east + x * wide, north + y * tall).value),
      )
      return estimates.reduce((sum, value) => sum + value / estimates.length, 0)
    },
    'SYN-03': ({ marker, added_mm }) => {
      const before = leaveOneOut(systemFor(synthPoints(0), synthetic)).points
      const spoiled = synthPoints(0).map((point, index) =>
        index === marker - 1 ? { ...point, value: point.value + added_mm } : point,
      )
      const after = leaveOneOut(systemFor(spoiled, synthetic)).points.toSorted(
        (a, b) => Math.abs(b.standardised) - Math.abs(a.standardised),
      )
      return {
        z_before: before[marker - 1]?.standardised,
        z_after: after[0]?.standardised,
        next_largest: Math.abs(after[1]?.standardised ?? Number.NaN),
        rank_order: after.slice(0, 4).map(({ index }) => index + 1),
      }
    },
    'TIN-01': triangulated,
    'TIN-03': triangulated,
    'TIN-04': triangulated,
    'TIN-05': triangulated,
    'NNI-01': naturalNeighbours,
    'NNI-02': naturalNeighbours,
    'NNI-03': naturalNeighbours,
    'NNI-04': ({ points, targets }) =>
      targets.map((at: [number, number]) => naturalNeighbourWeights(points, at)),
    'HUL-01': ({ ring }) => areaAndCentroid(ring),
    'BAR-01': () => {
      const [one, other] = [0, 100].map((added) => farSideOfWall(added)) as [
        readonly number[],
        readonly number[],
      ]
      return one.every((value, node) => Object.is(value, other[node])) ? 'invariant' : 'changed'
    },
    'CNT-01': ({ levels }) => {
      const grid = gridOf(12, 1, (e, n) => 10 - Math.hypot(e, n))
      return linesOf(grid, levels).map(
        ({ levelMm, points }) => areaAndCentroid(points.slice(1)).area / (Math.PI * (10 - levelMm) ** 2),
      )
    },
    'CNT-04': ({ level, nodes }) => {
      const grid = gridOf(12, 1, (e, n) => 10 - Math.hypot(e, n))
      const ring = linesOf(grid, [level]).flatMap(({ points }) => points)
      return nodes.map(([e, n]: [number, number]) =>
        Math.min(...ring.map(([east, north]) => Math.hypot(east - e, north - n))),
      )
    },
    'CNT-05': ({ x0, h, cx }) => {
      const grid = gridOf(4, 1, (e) => e + 4)
      const [line] = linesOf({ ...grid, origin: [x0, 0], cellMetres: h }, [cx - 0.5])
      return line?.points[0]?.[0]
    },
    'VOL-03': bowl,
    'VOL-08': () => {
      const grid = gridOf(5, 1, (e) => e)
      const rows = 5
      const { above, below, net } = surfaceVolume(
        gridMesh({
          ...grid,
          rows,
          values: grid.values.slice(0, grid.columns * rows),
          mask: grid.mask.slice(0, grid.columns * rows),
        }),
        0,
      )
      return { fill: above, cut: below, net }
    },
  },
}

const subtract = ([a, b]: readonly number[], [c, d]: readonly number[]) => [
  (a ?? 0) - (c ?? 0),
  (b ?? 0) - (d ?? 0),
]

const target = ({ target: [east, north] }: PublishedInputs): [number, number] => [east, north]

const anisotropyOf = ({ azimuth_deg_clockwise_from_north, ratio }: PublishedInputs) => ({
  azimuthDegrees: azimuth_deg_clockwise_from_north,
  ratio,
})

const pointsOf = ({ x, y, v, z }: PublishedInputs, errorVariance: number): KrigingPoint[] =>
  x.map((east: number, index: number) => ({ east, north: y[index], value: (v ?? z)[index], errorVariance }))

function systemFor(points: readonly KrigingPoint[], model: Variogram, drift: Drift = 'mean') {
  return accepted(
    buildSystem(points, { variogram: model, drift, farthestMetres: 2e4, placeMetres: 1e-6, ways: null }),
  )
}

const systemOf = (inputs: PublishedInputs, model: Variogram, drift: Drift = 'mean', errorVariance = 0) =>
  systemFor(pointsOf(inputs, errorVariance), model, drift)

function kriged(inputs: PublishedInputs, model: Variogram, drift: Drift = 'mean', errorVariance = 0) {
  const { value, variance } = krigeAt(systemOf(inputs, model, drift, errorVariance), ...target(inputs))
  return { estimate: value, variance }
}

/** With the added point, through the places that the app makes of points; far enough from nought not to be degrees. */
function duplicated(inputs: PublishedInputs, model: Variogram, errorVariance: number) {
  const { x, y, v, added_duplicate: added } = inputs
  const shift = 1000
  const points = [...x.keys(), -1].map((index: number) => ({
    id: String(index),
    eastingMetres: shift + (index < 0 ? added.x : x[index]),
    northingMetres: shift + (index < 0 ? added.y : y[index]),
    value: index < 0 ? added.v : v[index],
    standardUncertainty: Math.sqrt(errorVariance),
    late: false,
  }))
  const { places, origin } = accepted(placesOf(points, 'ppm'))
  const [east, north] = target(inputs)
  const { value, variance } = krigeAt(
    systemFor(places, model),
    shift + east - origin[0],
    shift + north - origin[1],
  )
  return { estimate: value, variance }
}

const synthPoints = (errorVariance: number): KrigingPoint[] =>
  synth40.map(([east, north, value]) => ({ east, north, value, errorVariance }))

function synth(
  targets: readonly [number, number][],
  model: Variogram,
  drift: Drift = 'mean',
  errorVariance = 0,
) {
  const system = systemFor(synthPoints(errorVariance), model, drift)
  const estimates = targets.map(([east, north]) => krigeAt(system, east, north))
  return {
    estimate: estimates.map(({ value }) => value),
    variance: estimates.map(({ variance }) => variance),
  }
}

function inverseDistance(inputs: PublishedInputs): number {
  return inverseDistanceValue(pointsOf(inputs, 0), ...target(inputs), inputs.power)
}

const rowsOfPoints = ({ points, x, y, v }: PublishedInputs): [number, number, number][] =>
  points ?? x.map((east: number, index: number) => [east, y[index], v[index]])

function triangulated(inputs: PublishedInputs): number | null {
  const surface = accepted(
    buildSettlementSurface(
      rowsOfPoints(inputs).map(([eastingMetres, northingMetres, valueMm], index) => ({
        id: String(index),
        eastingMetres,
        northingMetres,
        valueMm,
        standardUncertaintyMm: null,
        late: false,
      })),
      { barriers: [], longestSideMetres: Number.POSITIVE_INFINITY },
    ),
  )
  return surfaceAt(surface, target(inputs))?.valueMm ?? null
}

function naturalNeighbours(inputs: PublishedInputs): number | null {
  const points = rowsOfPoints(inputs)
  const weights = naturalNeighbourWeights(
    points.map(([east, north]) => [east, north]),
    target(inputs),
  )
  return weights && points.reduce((sum, [, , value], index) => sum + value * (weights[index] ?? 0), 0)
}

/** Nodes west of a wall through the middle of the forty points, with something added to every reading east of it. */
function farSideOfWall(added: number): readonly number[] {
  const surface = accepted(
    finishSteps(
      krigedSurfaceSteps(
        synth40.map(([east, north, value], index) => ({
          id: String(index),
          eastingMetres: east,
          northingMetres: north,
          value: east > 480 ? value + added : value,
          standardUncertainty: 1,
          late: false,
        })),
        {
          unit: 'mm',
          drift: 'ordinary',
          variogram: synthetic,
          barriers: [
            [
              [480, -100],
              [480, 700],
            ],
          ],
          grid: { origin: [0, 0], cellMetres: 20, columns: 24, rows: 31 },
          silentRadiusMetres: 0,
          greatestDeviation: null,
        },
      ),
    ),
  )
  return [...surface.grid.values]
}

function gridOf(halfMetres: number, cellMetres: number, value: (east: number, north: number) => number) {
  const columns = Math.round((2 * halfMetres) / cellMetres) + 1
  return {
    origin: [-halfMetres, -halfMetres] as const,
    cellMetres,
    columns,
    rows: columns,
    values: Float64Array.from({ length: columns * columns }, (_, node) =>
      value((node % columns) * cellMetres - halfMetres, Math.floor(node / columns) * cellMetres - halfMetres),
    ),
    mask: new Uint8Array(columns * columns),
  }
}

const linesOf = (grid: ValueGrid, levels: readonly number[]) =>
  meshContours(gridMesh(grid), Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, levels).lines

function bowl({ Smax_m, i_m, spacing_m }: PublishedInputs): number {
  const grid = gridOf(60, spacing_m, (e, n) => Smax_m * Math.exp(-(e * e + n * n) / (2 * i_m * i_m)))
  return surfaceVolume(gridMesh(grid), 0).net
}

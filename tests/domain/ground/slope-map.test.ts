import { expect, it } from 'vitest'
import type { SitePoint } from '#domain/geometry/site-grid.ts'
import { gradientArrows } from '#domain/ground/gradient-arrows.ts'
import { groundMapSteps } from '#domain/ground/ground-map.ts'
import { slopeMap } from '#domain/ground/slope-map.ts'
import type { SurfaceField } from '#domain/ground/surface-field.ts'
import { finishSteps } from '../../support/finish-steps.ts'

/** 41 × 31 nodes a metre apart. */
function field(value: (east: number, north: number) => number, deviation: number | null): SurfaceField {
  const [columns, rows] = [41, 31]
  const values = Float64Array.from({ length: columns * rows }, (_, node) =>
    value(node % columns, Math.floor(node / columns)),
  )
  return {
    grid: { origin: [1000, 2000], cellMetres: 1, columns, rows, values, mask: new Uint8Array(values.length) },
    slopeErrors: null,
    standardDeviations: deviation === null ? null : new Float64Array(values.length).fill(deviation),
  }
}

const wall: readonly SitePoint[] = [
  [1020.5, 1990],
  [1020.5, 2040],
]

it('tells the slope of a plane everywhere but at the edge, where no neighbour is', () => {
  const map = slopeMap(
    field((east, north) => 3 * east + 4 * north, 0.1),
    'slope',
    10,
    [],
  )
  expect(map.overMetres).toBe(10)
  expect(map.steepest?.mmPerMetre).toBeCloseTo(5, 12)
  expect(map.steepest?.standardError).toBeCloseTo((Math.SQRT2 * 0.1) / 10, 12)
  const told = map.areas.reduce((sum, { squareMetres }) => sum + squareMetres, 0)
  expect(told).toBe(31 * 21)
  expect(told + map.untoldSquareMetres).toBe(41 * 31)
  expect(map.hatches.length).toBeGreaterThan(0)
})

it('draws nothing of a slope that the deviation over one spacing could produce', () => {
  const map = slopeMap(
    field((east) => 0.1 * east, 1),
    'slope',
    10,
    [],
  )
  expect(map.areas).toEqual([])
  expect(map.steepest).toBeNull()
  expect(map.bands).toEqual([])
  expect(map.untoldSquareMetres).toBe(41 * 31)
})

it('draws nothing of it either where the surface has an edge of its own', () => {
  const gentle = field((east) => 0.1 * east, 1)
  const edge = { inwardMetres: new Float64Array(gentle.grid.values.length).fill(5), part: null }
  const map = slopeMap({ ...gentle, grid: { ...gentle.grid, edge } }, 'slope', 10, [])
  expect(map.bands).toEqual([])
  expect(map.lines).toEqual([])
})

it('never compares across a barrier: a step of 50 mm at a wall is no slope', () => {
  const step = field((east) => (east > 20.5 ? 50 : 0) + 0.5 * east, 0.1)
  for (const aspect of ['slope', 'distortion'] as const) {
    const across = slopeMap(step, aspect, 6, [])
    const apart = slopeMap(step, aspect, 6, [wall])
    expect(across.steepest?.mmPerMetre).toBeGreaterThan(3)
    expect(apart.steepest?.mmPerMetre ?? 0).toBeLessThan(0.51)
  }
})

it('has only dashed lines where the method states no deviation', () => {
  const { lines } = slopeMap(
    field((east) => east ** 2 / 10, null),
    'slope',
    4,
    [],
  )
  expect(lines.length).toBeGreaterThan(0)
  expect(lines.every(({ certain }) => !certain)).toBe(true)
})

it('tells of a bent ground the angular distortion of two bays', () => {
  const map = slopeMap(
    field((east) => 0.05 * east ** 2, 0.01),
    'distortion',
    5,
    [],
  )
  // 2 v(0) − v(5) − v(−5) = 2.5 mm over two bays of 5 m.
  expect(map.steepest?.mmPerMetre).toBeCloseTo(0.25, 12)
  expect(map.steepest?.standardError).toBeCloseTo((Math.sqrt(6) * 0.01) / 10, 12)
})

it('counts the area at or above each published value, of the part told', () => {
  const { guidance } = slopeMap(
    field((east) => 4 * east, 0.01),
    'slope',
    2,
    [],
  )
  expect(guidance.find(({ oneIn }) => oneIn === 500)?.squareMetres).toBe(39 * 29)
  expect(guidance.find(({ oneIn }) => oneIn === 200)?.squareMetres).toBe(0)
})

it('points arrows the way in which the head falls, and none across a wall', () => {
  const heads = field((east) => -0.01 * east, 0.001)
  const { arrows } = gradientArrows(heads, 10, [])
  expect(arrows.length).toBeGreaterThan(10)
  for (const arrow of arrows) {
    expect(arrow.azimuthDegrees).toBeCloseTo(90, 9)
    expect(arrow.gradient).toBeCloseTo(0.01, 12)
    expect(arrow.gradientStandardError).toBeCloseTo((Math.SQRT2 * 0.001) / 10, 12)
    expect(arrow.standing).toBe('told')
  }
  const { arrows: dammed } = gradientArrows(
    field((east) => (east > 20.5 ? -5 : 0), 0.001),
    10,
    [wall],
  )
  expect(dammed.every(({ gradient, standing }) => gradient === 0 && standing === 'none')).toBe(true)
})

it('states no direction where the gradient is not above twice its error, and says where no error is known', () => {
  const { arrows: noisy } = gradientArrows(
    field((east) => 0.001 * east, 1),
    10,
    [],
  )
  expect(noisy.every(({ standing }) => standing === 'none')).toBe(true)
  const { arrows: unknown } = gradientArrows(
    field((east) => 0.001 * east, null),
    10,
    [],
  )
  expect(unknown.every((one) => one.standing === 'unknown' && one.gradientStandardError === null)).toBe(true)
})

it('takes straight lines between points to a grid that agrees with them', () => {
  const points = [
    [0, 0],
    [40, 0],
    [0, 40],
    [40, 40],
    [20, 21],
  ].map(([east, north], at) => ({
    id: `P${at}`,
    eastingMetres: 500_000 + (east as number),
    northingMetres: 310_000 + (north as number),
    value: 0.5 * (east as number) + 0.25 * (north as number),
    standardUncertainty: 0.01,
    late: false,
  }))
  const made = finishSteps(
    groundMapSteps({
      points,
      unit: 'mm',
      method: 'linear',
      barriers: [],
      longestSideMetres: 100,
      silentRadiusMetres: 10,
      nodes: 81,
      sectionLine: [],
      aspect: 'slope',
      ofHeads: false,
      at: [
        [500_010, 310_010],
        [600_000, 310_010],
      ],
    }),
  )
  if (!made.ok) throw new Error('refused')
  expect(made.value.slopes?.steepest?.mmPerMetre).toBeCloseTo(Math.hypot(0.5, 0.25), 9)
  expect(made.value.valuesAt[0]).toBeCloseTo(7.5, 9)
  expect(made.value.valuesAt[1]).toBeNull()
  expect('field' in made.value).toBe(false)
  expect(structuredClone(made.value).slopes).not.toBeNull()
})

it('tells the error of a thin triangle, which tilts with little', () => {
  const tip = (id: string, eastingMetres: number, northingMetres: number, value: number) => ({
    id,
    eastingMetres,
    northingMetres,
    value,
    standardUncertainty: 0.01,
    late: false,
  })
  const made = finishSteps(
    groundMapSteps({
      points: [tip('A', 0, 0, 1), tip('B', 60, 0, 1), tip('C', 30, 3, 1.02)],
      unit: 'm',
      method: 'linear',
      barriers: [],
      longestSideMetres: 100,
      silentRadiusMetres: 10,
      nodes: 121,
      sectionLine: [],
      aspect: 'values',
      ofHeads: true,
      at: [],
    }),
  )
  if (!made.ok) throw new Error('refused')
  const arrows = made.value.gradient?.arrows ?? []
  expect(arrows.length).toBeGreaterThan(0)
  for (const arrow of arrows) {
    // Up the short way: 20 mm over 3 m, of which C gives 10 mm and A and B half of theirs each.
    expect(arrow.gradient).toBeCloseTo(0.02 / 3, 9)
    expect(arrow.gradientStandardError).toBeCloseTo((0.01 * Math.sqrt(1.5)) / 3, 6)
    expect(arrow.standing).toBe('none')
  }
})

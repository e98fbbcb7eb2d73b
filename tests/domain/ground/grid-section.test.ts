import { expect, test } from 'vitest'
import { distortionOf } from '#domain/ground/distortion.ts'
import { angularDistortionGrid, slopeGrid } from '#domain/ground/grid-slope.ts'
import { gridValueAt } from '#domain/ground/grid-value.ts'
import { sectionOfGrid } from '#domain/ground/surface-on-line.ts'
import { accepted } from '../../published/accepted.ts'

const gridOf = (value: (east: number, north: number) => number) => ({
  origin: [100, 200] as const,
  cellMetres: 2,
  columns: 31,
  rows: 31,
  values: Float64Array.from({ length: 961 }, (_, node) => value(2 * (node % 31), 2 * Math.floor(node / 31))),
  mask: new Uint8Array(961),
})
const plane = gridOf((east, north) => 3 * east - 4 * north)

test('a section of a plane is straight, at corners and even steps, and empty where nothing is shown', () => {
  const line = [
    [100, 200],
    [130, 240],
    [170, 240],
  ] as const
  const section = sectionOfGrid(plane, null, line)
  expect(section).toHaveLength(91)
  section.forEach(({ chainageMetres }, at) => {
    expect(chainageMetres).toBeCloseTo(at, 9)
  })
  expect(section[50]?.value).toBeCloseTo(3 * 30 - 4 * 40, 9)
  expect(section.at(-1)?.value).toBeNull()
  expect(gridValueAt({ ...plane, mask: plane.mask.slice().fill(2, 0, 1) }, [101, 201])).toBeNull()
  const away = [
    [0, 0],
    [50, 0],
  ] as const
  expect(sectionOfGrid(plane, null, away).every(({ value }) => value === null)).toBe(true)
})

test('slope is that of the steepest way; its edge is not known', () => {
  const slopes = slopeGrid(plane)
  expect(slopes[5 * 31 + 5]).toBeCloseTo(5, 9)
  expect(slopes[0]).toBeNaN()
})

test('angular distortion is that of three points in a line, and none on a plane', () => {
  expect(angularDistortionGrid(plane, 10)[15 * 31 + 15]).toBeCloseTo(0, 9)
  const bowl = gridOf((east) => -20 * Math.exp(-((east - 30) ** 2) / 200))
  const node = 15 * 31 + 15
  const [left, middle, right] = [node - 5, node, node + 5].map((at) => -(bowl.values[at] as number)) as [
    number,
    number,
    number,
  ]
  const { angularDistortionMmPerM } = accepted(
    distortionOf([
      { chainageMetres: 0, settlementMm: left },
      { chainageMetres: 10, settlementMm: middle },
      { chainageMetres: 20, settlementMm: right },
    ]),
  )
  expect(angularDistortionGrid(bowl, 10)[node]).toBeCloseTo(Math.abs(angularDistortionMmPerM[0] ?? 0), 9)
})

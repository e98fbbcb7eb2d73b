import { expect, test } from 'vitest'
import type { PlacedInstrument } from '#contract/site-document.ts'
import type { SiteGrid } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import type { Stage } from '#domain/site/tables.ts'
import { wallBeside } from '../../../../web/derived/ground/wall-of-inclinometer.ts'
import {
  inwardAxis,
  lateSentence,
  stageDugAt,
  wallReadings,
} from '../../../../web/derived/ground/wall-readings.ts'
import type { DepthProfileProps } from '../../../../web/views/depth-profile/profile-props.ts'

const grid = { toGrid: (place: readonly number[]) => place } as unknown as SiteGrid
const rectangle = (west: number, south: number, east: number, north: number) => ({
  type: 'Polygon',
  coordinates: [
    [
      [west, south],
      [east, south],
      [east, north],
      [west, north],
      [west, south],
    ],
  ],
})
const feature = (
  kind: string,
  id: string,
  geometry: unknown,
  fromEpochMs: number,
  untilEpochMs: number | null,
) => ({
  geometry,
  properties: { kind, id, name: id, fromEpochMs, untilEpochMs },
})
const works = {
  features: [
    feature('wall', 'south', rectangle(0, -1, 100, 0), 0, null),
    feature('wall', 'north', rectangle(0, 30, 100, 31), 0, null),
    feature('excavation', 'dig', rectangle(0, 0, 100, 30), 10, 90),
  ],
} as unknown as Works
const beside = (place: readonly [number, number], atEpochMs = 50) =>
  wallBeside(works, grid, place, { atEpochMs, withinMetres: 2 })

test('a wall is its face away from the dig, with the dig on one side of it', () => {
  const south = beside([40, -1.6])
  expect(south?.id).toBe('south')
  expect(south?.bearingIntoDigDegrees).toBeCloseTo(0, 9)
  // Ten metres behind the outer face at −1, whichever way the outline runs.
  const behind = south?.stationOf([40, -11])
  const distance = (south?.dugSide === 'left' ? 1 : -1) * (behind?.offsetMetres ?? Number.NaN)
  expect(distance).toBeCloseTo(10, 9)
  expect(beside([40, 31.6])?.bearingIntoDigDegrees).toBeCloseTo(180, 9)
})

test('no wall is named too far away, before the dig is open, or when it is filled', () => {
  expect(beside([40, -15])).toBeNull()
  expect(beside([40, -1.6], 5)).toBeNull()
  expect(beside([40, -1.6], 90)).toBeNull()
})

test('the axis into the dig is the one that points there, with its sign', () => {
  const axes = (axisBearingDegrees: number | null, positiveB: PlacedInstrument['positiveB'] = 'clockwise') =>
    inwardAxis({ axisBearingDegrees, positiveB }, 0)
  expect(axes(5)).toEqual({ axis: 'a', sign: 1, askewDegrees: 5 })
  expect(axes(180)).toEqual({ axis: 'a', sign: -1, askewDegrees: 0 })
  expect(axes(270)).toMatchObject({ axis: 'b', sign: 1 })
  expect(axes(270, 'counter-clockwise')).toMatchObject({ axis: 'b', sign: -1 })
  expect(axes(null)).toBeNull()
})

test('a wall moved by what its profile gained since; a late or missing reading is none', () => {
  const reading = (point: string, value: number | null, late = false) => ({ point, value, late })
  const profile = {
    points: [
      { point: 'p1', depthMetres: 2 },
      { point: 'p2', depthMetres: 4 },
      { point: 'p3', depthMetres: 6 },
    ],
    curves: [
      { readings: [reading('p1', -9), reading('p2', -7, true), reading('p3', -5)] },
      { readings: [reading('p1', -2), reading('p2', -2), reading('p3', null)] },
    ],
  } as unknown as DepthProfileProps
  expect(lateSentence(profile)).toMatch(/^2 of 3 depths/)
  expect(wallReadings(profile, -1)).toEqual([
    { depthMetres: 2, inwardMm: 7 },
    { depthMetres: 4, inwardMm: Number.NaN },
    { depthMetres: 6, inwardMm: Number.NaN },
  ])
})

test('the depth is of the latest begun stage that digs, not of one that only casts', () => {
  const stage = (id: string, startsAt: number, formationLevelMetres: number | null) =>
    ({ id, startsAt, endsAt: null, formationLevelMetres }) as Stage
  const stages = [stage('one', 10, -2), stage('two', 20, -5), stage('cast', 30, null)]
  expect(stageDugAt(stages, 35)?.id).toBe('two')
  expect(stageDugAt(stages, 5)).toBeNull()
})

import { expect, it } from 'vitest'
import type { Works } from '#domain/site/site.ts'
import { siteBounds } from '../../../../web/views/plan-map/site-bounds.ts'

const square = (kind: 'boundary' | 'dock' | 'building', size: number): Works['features'][number] => ({
  type: 'Feature',
  geometry: {
    type: 'Polygon',
    coordinates: [
      [
        [-size, -size],
        [size, -size],
        [size, size],
        [-size, size],
        [-size, -size],
      ],
    ],
  },
  properties: {
    id: kind,
    kind,
    name: kind,
    barrier: false,
    fromEpochMs: null,
    untilEpochMs: null,
    topLevelMetres: null,
    baseLevelMetres: null,
  },
})
const works = (...features: Works['features']): Works => ({ type: 'FeatureCollection', features })
const symbols = [{ longitude: 3, latitude: 0.5 }] as never

it('holds the boundary and every symbol, not the sea', () => {
  expect(siteBounds({ works: works(square('dock', 9), square('boundary', 1)), symbols })).toEqual([
    -1, -1, 3, 1,
  ])
})

it('makes do with the works where there is no boundary and no symbol', () => {
  expect(
    siteBounds({ works: works(square('dock', 9), square('building', 2)), symbols: [] as never }),
  ).toEqual([-2, -2, 2, 2])
})

it('is somewhere even for an empty site', () => {
  const [west, south, east, north] = siteBounds({ works: works(), symbols: [] as never })
  expect(east).toBeGreaterThan(west)
  expect(north).toBeGreaterThan(south)
})

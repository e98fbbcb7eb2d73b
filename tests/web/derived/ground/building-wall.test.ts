import { expect, test } from 'vitest'
import { stationOf } from '#domain/geometry/alignment.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import { buildingsBeside } from '../../../../web/derived/ground/building-wall.ts'

const grid = { toGrid: (place: readonly number[]) => place } as unknown as SiteGrid
const building = (id: string, from: SitePoint, to: SitePoint, top: number | null, kind = 'building') => ({
  geometry: {
    type: 'Polygon',
    coordinates: [[from, [to[0], from[1]], to, [from[0], to[1]], from]],
  },
  properties: { id, name: id, kind, topLevelMetres: top, baseLevelMetres: 3 },
})
const works = {
  features: [
    building('far', [20, 60], [40, 70], 10),
    building('right', [20, -22], [40, -12], 12.5),
    building('over', [50, -4], [60, 9], null),
    building('dig', [50, -4], [60, 9], 10, 'excavation'),
    building('beyond', [120, -4], [130, 9], 10),
  ],
} as unknown as Works
// Travel to the east: the south is right of it.
const line = [
  [0, 0],
  [100, 0],
] as const

test('buildings within reach of a line are known by their offsets across it and their recorded height', () => {
  const found = buildingsBeside(works, grid, (point) => stationOf(line, point), 30)
  expect(found).toEqual([
    {
      id: 'over',
      name: 'over',
      fromOffsetMetres: -9,
      toOffsetMetres: 4,
      fromChainageMetres: 50,
      toChainageMetres: 60,
      heightMetres: null,
    },
    {
      id: 'right',
      name: 'right',
      fromOffsetMetres: 12,
      toOffsetMetres: 22,
      fromChainageMetres: 20,
      toChainageMetres: 40,
      heightMetres: 9.5,
    },
  ])
})

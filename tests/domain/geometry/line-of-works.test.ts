import { lineIntersect, lineString } from '@turf/turf'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { lengthOfLine, stationOf } from '#domain/geometry/alignment.ts'
import { worksAlongSection } from '#domain/geometry/line-of-works.ts'
import { openSiteGrid, type SiteGrid, type SitePoint } from '#domain/geometry/site-grid.ts'
import type { Works, WorksProperties } from '#domain/site/site.ts'

const opened = openSiteGrid(
  '+proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +ellps=GRS80 +units=m',
)
if (!opened.ok) throw new Error('grid')
const grid: SiteGrid = opened.value

const properties = (id: string, more: Partial<WorksProperties> = {}): WorksProperties => ({
  id,
  kind: 'excavation',
  name: id,
  barrier: false,
  fromEpochMs: null,
  untilEpochMs: null,
  topLevelMetres: 4.6,
  baseLevelMetres: -8.5,
  ...more,
})
const onEarth = (points: readonly SitePoint[]) => points.map((point) => [...grid.toLngLat(point)])
const box: SitePoint[] = [
  [500000, 310000],
  [500120, 310000],
  [500120, 310028],
  [500000, 310028],
  [500000, 310000],
]
const hole: SitePoint[] = [
  [500050, 310010],
  [500070, 310010],
  [500070, 310020],
  [500050, 310020],
  [500050, 310010],
]
const works: Works = {
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      geometry: { type: 'Polygon', coordinates: [onEarth(box), onEarth(hole)] },
      properties: properties('box', { fromEpochMs: 1000, untilEpochMs: 2000 }),
    },
    {
      type: 'Feature',
      geometry: {
        type: 'LineString',
        coordinates: onEarth([
          [500000, 310000],
          [500120, 310000],
        ]),
      },
      properties: properties('south wall', { kind: 'wall', barrier: true }),
    },
    {
      type: 'Feature',
      geometry: { type: 'Point', coordinates: onEarth([[500060, 310005]])[0] as number[] },
      properties: properties('crane', { kind: 'obstruction' }),
    },
  ],
}
const cut = (line: readonly SitePoint[], at: number | null) =>
  worksAlongSection(line, works, grid, at).map((found) => [
    found.works.id,
    Math.round(found.fromChainageMetres * 1000) / 1000,
    Math.round(found.untilChainageMetres * 1000) / 1000,
  ])

test('intervals inside polygons, holes left out, and crossings of lines, by chainage', () => {
  const northward: SitePoint[] = [
    [500060, 309980],
    [500060, 310048],
  ]
  expect(cut(northward, null)).toEqual([
    ['box', 20, 30],
    ['south wall', 20, 20],
    ['box', 40, 48],
  ])
  expect(worksAlongSection(northward, works, grid, null)[0]).toMatchObject({
    topLevelMetres: 4.6,
    baseLevelMetres: -8.5,
  })
})

test('works that do not exist at the instant are not cut', () => {
  const northward: SitePoint[] = [
    [500060, 309980],
    [500060, 310048],
  ]
  expect(cut(northward, 999)).toEqual([['south wall', 20, 20]])
  expect(cut(northward, 1000)).toHaveLength(3)
  expect(cut(northward, 2000)).toEqual([['south wall', 20, 20]])
})

test('a section that begins inside, bends inside, or lies wholly inside', () => {
  expect(
    cut(
      [
        [500010, 310014],
        [500030, 310014],
      ],
      1500,
    ),
  ).toEqual([['box', 0, 20]])
  expect(
    cut(
      [
        [500010, 310014],
        [500010, 310020],
        [500010, 310040],
      ],
      1500,
    ),
  ).toEqual([['box', 0, 14]])
  expect(
    cut(
      [
        [500200, 310014],
        [500300, 310014],
      ],
      1500,
    ),
  ).toEqual([])
})

test('crossings agree with turf where it reckons in the plane', () => {
  const coordinate = fc.integer({ min: -60, max: 180 })
  const point = fc.tuple(coordinate, coordinate).map(([e, n]): SitePoint => [500000 + e, 310000 + n])
  fc.assert(
    fc.property(fc.array(point, { minLength: 2, maxLength: 4 }), (line) => {
      fc.pre(lengthOfLine(line) > 1)
      // Integer corners make touching and collinear cases; those are judged above, by example.
      fc.pre(line.every(([, n]) => n !== 310000))
      const wall: SitePoint[] = [
        [500000, 310000],
        [500120, 310000],
      ]
      const turf = lineIntersect(
        lineString(line.map(([e, n]) => [e, n])),
        lineString(wall.map(([e, n]) => [e, n])),
      ).features.map(({ geometry }) => {
        const [e, n] = geometry.coordinates as [number, number]
        return [e, n] as const
      })
      const ours = worksAlongSection(line, works, grid, 0).map((found) => found.fromChainageMetres)
      // The wall on the earth is straight between its two ends on the grid to well under a millimetre.
      expect(new Set(ours.map((chainage) => chainage.toFixed(2))).size).toBeGreaterThanOrEqual(
        new Set(turf.map(([e]) => e.toFixed(2))).size,
      )
      for (const place of turf) {
        const station = stationOf(line, place)
        expect(station?.distanceMetres).toBeLessThan(1e-6)
      }
      expect(ours.length > 0).toBe(turf.length > 0)
    }),
    { seed: 5, numRuns: 200 },
  )
})

import { expect, test } from 'vitest'
import { alignmentsOfWorks } from '#domain/geometry/alignment-of-works.ts'
import { openSiteGrid } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import {
  alignmentSentence,
  placeSentence,
  sectionOnAlignment,
  stationTexts,
} from '../../../web/panels/alignment-sentences.ts'

const opened = openSiteGrid('+proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=0 +y_0=0 +ellps=GRS80 +units=m')
if (!opened.ok) throw new Error('the grid of the test cannot be opened')
const works: Works = {
  type: 'FeatureCollection',
  features: [
    {
      type: 'Feature',
      geometry: {
        type: 'LineString',
        coordinates: [[...opened.value.toLngLat([0, 0])], [...opened.value.toLngLat([0, 400])]],
      },
      properties: {
        id: 'drive',
        kind: 'tunnel',
        name: 'Drive',
        barrier: false,
        fromEpochMs: null,
        untilEpochMs: null,
        topLevelMetres: null,
        baseLevelMetres: null,
      },
    },
  ],
}
const element = (
  number: number,
  chainage: number,
  northing: number,
  lengthMetres: number,
  radius: number | null,
) => ({
  alignment: 'drive',
  element: number,
  startChainageMetres: chainage,
  startEastingMetres: 0,
  startNorthingMetres: northing,
  startBearingDegrees: 0,
  lengthMetres,
  radiusMetres: radius,
  hand: radius === null ? null : ('left' as const),
})
const rows = [element(1, 500, 0, 100, null), element(2, 600, 100, 100, 300)]
const [curved] = alignmentsOfWorks(works, rows, opened.value)
const [drawn] = alignmentsOfWorks(works, [], opened.value)
if (!curved || !drawn) throw new Error('no alignment')

test('says by what chainage is told', () => {
  expect(alignmentSentence(curved)).toBe(
    'Along Drive, by its straights and arcs, from chainage 500.000 to 700.000 m. Right of travel is +.',
  )
  expect(alignmentSentence(drawn)).toContain('by the line as drawn, from 0 where it begins to 400.0 m')
})

test('a place beside it, and one beyond its start', () => {
  expect(stationTexts(curved.stationOf([12, 40]))).toEqual(['540.00', '+12.00'])
  expect(stationTexts(curved.stationOf([-3, -20], { extended: true }))).toEqual([
    '480.00, beyond its start',
    '−3.00',
  ])
  expect(stationTexts(null)).toEqual(['–', '–'])
  const sentence = (place: readonly [number, number]) =>
    placeSentence('Drive', 'SP-1', curved.stationOf(place, { extended: true }))
  expect(sentence([-3, -20])).toBe(
    'SP-1 along “Drive”: chainage 480.00 m beyond its start, 3.00 m left of travel',
  )
  expect(sentence([12, 40])).toBe('SP-1 along “Drive”: chainage 540.00 m, 12.00 m right of travel')
  expect(placeSentence('Drive', 'SP-1', null)).toBe('SP-1 has no place along “Drive”')
})

test('a section across runs from left to right', () => {
  const [left, right] = sectionOnAlignment(curved, { across: 550, reachMetres: 20 }) ?? []
  expect(left?.[0]).toBeCloseTo(-20, 9)
  expect(right?.[0]).toBeCloseTo(20, 9)
  expect(sectionOnAlignment(curved, { across: 705, reachMetres: 20 })).toBeNull()
  expect(sectionOnAlignment(curved, { across: 550, reachMetres: Number.NaN })).toBeNull()
})

test('a section along follows the arc, in the direction asked for', () => {
  const along = sectionOnAlignment(curved, { from: 560, until: 680 }) ?? []
  expect(along.length).toBeGreaterThan(10)
  for (const corner of along) expect(Math.abs(curved.stationOf(corner)?.offsetMetres ?? 1)).toBeLessThan(1e-6)
  const back = sectionOnAlignment(curved, { from: 680, until: 560 }) ?? []
  expect(back).toEqual(along.toReversed())
  expect(sectionOnAlignment(curved, { from: 560, until: 560 })).toBeNull()
})

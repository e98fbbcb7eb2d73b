import { expect, test } from 'vitest'
import { alignmentsOfWorks, worksOnElements } from '#domain/geometry/alignment-of-works.ts'
import { openSiteGrid } from '#domain/geometry/site-grid.ts'
import type { Works } from '#domain/site/site.ts'
import { sectionRemarks } from '../../../../web/views/section/section-table.ts'
import { grid, section, works } from './made-section.ts'

test('where a millimetre of its length differs on the ground, both lengths are told', () => {
  const utm = openSiteGrid('EPSG:32630')
  if (!utm.ok) throw new Error('no grid')
  const line = [
    [500_000, 5_760_000],
    [500_100, 5_760_000],
  ] as const
  const said = sectionRemarks({ ...section, grid: utm.value, line, works: { ...works, features: [] } })
  // The scale of UTM on its central meridian is 0.9996: 40 mm in 100 m.
  expect(said[0]).toMatch(/^100\.000 m long on the site grid, 100\.040 m on the ground\./)
  expect(sectionRemarks(section)[0]).toMatch(/^100\.0 m long\./)
})

test('where it crosses an alignment its own chainage is told, from the arcs and not their chords', () => {
  const drive: Works['features'][number] = {
    type: 'Feature',
    geometry: {
      type: 'LineString',
      coordinates: [[50, -100] as const, [50, 100] as const].map((corner) => [...grid.toLngLat(corner)]),
    },
    properties: {
      id: 'drive',
      kind: 'tunnel',
      name: 'Drive',
      barrier: false,
      fromEpochMs: null,
      untilEpochMs: null,
      topLevelMetres: -8,
      baseLevelMetres: -12,
    },
  }
  const element = {
    alignment: 'drive',
    element: 1,
    startChainageMetres: 1000,
    startEastingMetres: 50,
    startNorthingMetres: -100,
    startBearingDegrees: 0,
    lengthMetres: 300,
    radiusMetres: 500,
    hand: 'right' as const,
  }
  const said = (rows: readonly (typeof element)[]) => {
    const all: Works = { type: 'FeatureCollection', features: [drive] }
    return sectionRemarks({
      ...section,
      works: worksOnElements(all, rows, grid),
      alignments: alignmentsOfWorks(all, rows, grid),
    }).join(' ')
  }
  expect(said([])).toContain('The line crosses Drive at its chainage 100.00 m.')
  // The arc comes up to the line after an angle whose sine is 100/500.
  expect(said([element])).toContain(`at its chainage ${(1000 + 500 * Math.asin(0.2)).toFixed(2)} m`)
})

import { expect, test } from 'vitest'
import type { SiteDocument } from '#contract/site-document.ts'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import type { ControlPoint } from '#domain/site/tables.ts'
import { gridSentences } from '../../../web/panels/grid-facts.ts'

function sentences(
  crs: string,
  eastingMetres: number,
  northingMetres: number,
  controlPoints: ControlPoint[] = [],
) {
  const document = {
    facts: { crs, groundLevelMetres: 350 },
    locations: [{ eastingMetres, northingMetres }],
    controlPoints,
  } as unknown as SiteDocument
  const grid = openGridOfSite(document.facts, controlPoints)
  if (!grid.ok) throw new Error(grid.issues[0]?.message)
  return gridSentences(document, grid.value)
}

test('what a kilometre on the grid is on the ground, where true north is, how good the datum shift is', () => {
  // Near the central meridian at 350 m: 453.6 mm per km, as tests/published has it for k = 0.9996012717.
  const said = sentences('EPSG:27700', 400_000, 300_000)
  expect(said).toContainEqual(expect.stringContaining('1 km on the grid is 1 km and 454 mm on the ground'))
  expect(said).toContainEqual(expect.stringContaining('to about 2 m'))
  expect(said).toContainEqual(expect.stringContaining('EPSG:32630'))
})

test('two control points leave nothing to check by, and that is said', () => {
  const point = (id: string, x: number, y: number): ControlPoint => ({
    id,
    localEastingMetres: x,
    localNorthingMetres: y,
    crsEastingMetres: 400_000 + x,
    crsNorthingMetres: 300_000 + y,
    longitudeDegrees: null,
    latitudeDegrees: null,
    surveyedAt: 0,
    surveyedBy: 'A. Reed',
  })
  const two = [point('A', 0, 0), point('B', 100, 0)]
  expect(sentences('EPSG:27700', 50, 0, two)).toContainEqual(
    expect.stringContaining('nothing to check it by'),
  )
  const three = [...two, point('C', 0, 100)]
  expect(sentences('EPSG:27700', 50, 0, three)).toContainEqual(
    expect.stringContaining('2 coordinates to spare'),
  )
})

import { expect, test } from 'vitest'
import { openGridOfSite } from '#domain/geometry/grid-of-site.ts'
import { readSite } from '#domain/site/read-site.ts'
import { writeSite } from '#domain/site/write-site.ts'
import { smallSite } from './small-site.ts'

const headings =
  'id,localEastingMetres,localNorthingMetres,crsEastingMetres,crsNorthingMetres,longitudeDegrees,latitudeDegrees,surveyedAt,surveyedBy'
const by = '2027-01-20T09:00:00Z,A. Reed'

/** Corners of a square of 100 m whose own grid lies 1000 m west of the CRS and is turned a quarter. */
const corners = [
  `CP-1,0,0,501000,310000,,,${by}`,
  `CP-2,100,0,501000,310100,,,${by}`,
  `CP-3,100,100,500900,310100,,,${by}`,
  `CP-4,0,100,500900,310000,,,${by}`,
]

function read(rows: readonly string[], facts: readonly string[] = []) {
  const files = smallSite().set('control-points.csv', [headings, ...rows].join('\n'))
  if (facts.length > 0) files.set('site.csv', [files.get('site.csv'), ...facts].join('\n'))
  return readSite(files)
}
const issues = (...given: Parameters<typeof read>) => {
  const outcome = read(...given)
  return outcome.ok ? [] : outcome.issues
}

test('control points tie the own grid to the CRS, and are written out again', () => {
  const outcome = read(corners)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  const { facts, controlPoints } = outcome.value
  const grid = openGridOfSite(facts, controlPoints)
  const plain = openGridOfSite(facts)
  if (!grid.ok || !plain.ok) throw new Error('no grid')
  expect(grid.value.local?.rotationDegrees).toBeCloseTo(90, 9)
  const [longitude, latitude] = grid.value.toLngLat([100, 0])
  const [expectedLongitude, expectedLatitude] = plain.value.toLngLat([501000, 310100])
  expect(longitude).toBeCloseTo(expectedLongitude, 10)
  expect(latitude).toBeCloseTo(expectedLatitude, 10)
  expect(readSite(writeSite(outcome.value))).toEqual(outcome)
})

test('a point may be given by longitude and latitude', () => {
  const plain = openGridOfSite({
    crs: '+proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +ellps=GRS80 +units=m',
  })
  if (!plain.ok) throw new Error('no grid')
  const [longitude, latitude] = plain.value.toLngLat([500900, 310000])
  const rows = [...corners.slice(0, 3), `CP-5,0,100,,,${longitude.toFixed(9)},${latitude.toFixed(9)},${by}`]
  const outcome = read(rows)
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  const grid = openGridOfSite(outcome.value.facts, outcome.value.controlPoints)
  expect(grid.ok && grid.value.local?.standardErrorMetres).toBeLessThan(1e-3)
})

test('a residual beyond the tolerance is told by the name of its point', () => {
  const moved = [...corners.slice(0, 3), `CP-4,0,100,500900.2,310000,,,${by}`]
  expect(issues(moved)).toContainEqual(
    expect.objectContaining({ file: 'control-points.csv', line: 5, column: 'id', value: 'CP-4' }),
  )
  expect(issues(moved).find(({ value }) => value === 'CP-4')?.message).toMatch(/^CP-4 lies \d+ mm/)
  expect(issues(moved, ['controlToleranceMetres,0.5'])).toEqual([])
})

test('one pair of coordinates, not half of two; two points at least; metres', () => {
  const half = `CP-3,100,100,500900,,-29.98,,${by}`
  expect(issues([...corners.slice(0, 2), half])).toMatchObject([
    { code: 'control-incomplete', file: 'control-points.csv', line: 4, column: 'crsEastingMetres' },
  ])
  expect(issues(corners.slice(0, 1))).toMatchObject([{ code: 'control-too-few', file: 'control-points.csv' }])
  const inFeet = corners.map((row) => row.replace('100,', '328.084,').replace(',100,5', ',328.084,5'))
  expect(issues(inFeet).map(({ code }) => code)).toContain('control-scale')
})

test('the scale may be held at one', () => {
  const stretched = [`CP-1,0,0,501000,310000,,,${by}`, `CP-2,100,0,501000,310100.01,,,${by}`]
  const outcome = read(stretched, ['localGridScale,one'])
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message)
  const grid = openGridOfSite(outcome.value.facts, outcome.value.controlPoints)
  expect(grid.ok && grid.value.local).toMatchObject({ scale: 1, scaleHeld: true, redundancy: 1 })
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { openSiteGrid, type SiteGrid } from '#domain/geometry/site-grid.ts'
import { transverseMercatorExample, utmElsewhere, utmZone31 } from '../../published/geometry.ts'

function open(crs: string): SiteGrid {
  const grid = openSiteGrid(crs)
  if (!grid.ok) throw new Error(grid.issues[0]?.message)
  return grid.value
}

const near = (given: readonly number[], expected: readonly number[], tolerance: number) =>
  expected.forEach((value, index) => {
    expect(Math.abs((given[index] ?? Number.NaN) - value)).toBeLessThanOrEqual(tolerance)
  })

describe('published values', () => {
  test(transverseMercatorExample.source, () => {
    const { crs, position, grid, toleranceMetres, toleranceDegrees } = transverseMercatorExample
    near(open(crs).toGrid(position), grid, toleranceMetres)
    near(open(crs).toLngLat(grid), position, toleranceDegrees)
  })
  test.each(utmZone31.rows)(`${utmZone31.source}: $position`, ({ position, grid }) => {
    near(open(utmZone31.crs).toGrid(position), grid, utmZone31.toleranceMetres)
  })
  test.each(utmElsewhere.rows)(`${utmElsewhere.source}: $crs`, ({ crs, position, grid }) => {
    near(open(crs).toGrid(position), grid, utmElsewhere.toleranceMetres)
  })
})

test('a local grid goes there and back to a tenth of a millimetre', () => {
  const local = open('+proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +ellps=GRS80 +units=m')
  near(local.toGrid([-30, 48]), [500000, 310000], 1e-6)
  const metres = fc.double({ min: -5000, max: 5000, noNaN: true })
  fc.assert(
    fc.property(metres, metres, (east, north) => {
      near(
        local.toGrid(local.toLngLat([500000 + east, 310000 + north])),
        [500000 + east, 310000 + north],
        1e-4,
      )
    }),
    { seed: 1 },
  )
})

test('what is not known is refused with what to do instead', () => {
  for (const crs of [
    'EPSG:27700',
    'EPSG:32661',
    'EPSG:32600',
    'Skarrow grid',
    '',
    '+proj=nonsense',
    '+proj=longlat +nadgrids=some.gsb',
  ]) {
    const grid = openSiteGrid(crs)
    expect(grid.ok).toBe(false)
    if (!grid.ok) expect(grid.issues[0]).toMatchObject({ code: 'crs-unknown', value: crs })
    if (!grid.ok) expect(grid.issues[0]?.message).toMatch(/PROJ string/)
  }
})

test('says whether a unit is a metre on the ground', () => {
  expect(open('EPSG:32631').metres).toBe(true)
  expect(open('+proj=tmerc +lat_0=48 +lon_0=-30 +units=m').metres).toBe(true)
  for (const crs of ['EPSG:4326', 'EPSG:3857', '+proj=longlat', '+proj=tmerc +lon_0=1 +units=us-ft'])
    expect(open(crs).metres).toBe(false)
})

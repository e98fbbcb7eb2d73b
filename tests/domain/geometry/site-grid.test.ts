import fc from 'fast-check'
import { expect, test } from 'vitest'
import { openSiteGrid, type SiteGrid } from '#domain/geometry/site-grid.ts'

function open(crs: string): SiteGrid {
  const grid = openSiteGrid(crs)
  if (!grid.ok) throw new Error(grid.issues[0]?.message)
  return grid.value
}

const near = (given: readonly number[], expected: readonly number[], tolerance: number) =>
  expected.forEach((value, index) => {
    expect(Math.abs((given[index] ?? Number.NaN) - value)).toBeLessThanOrEqual(tolerance)
  })

/** PROJ 9.5.1, cs2cs without grid files and `proj -V`; its own stated accuracies of the shifts. */
const knownByCode = [
  {
    crs: 'EPSG:27700',
    grid: [530000, 180000],
    position: [-0.12835394047946935, 51.50399082763378],
    accuracy: 2,
  },
  {
    crs: 'EPSG:2154',
    grid: [652000, 6862000],
    position: [2.345811958680679, 48.85624814096273],
    accuracy: 1,
  },
  {
    crs: 'EPSG:2157',
    grid: [715000, 734000],
    position: [-6.272961149070996, 53.34371390844553],
    accuracy: 1,
  },
  {
    crs: 'EPSG:2193',
    grid: [1748000, 5428000],
    position: [174.7673997422316, -41.2858831901494],
    accuracy: 1,
  },
  {
    crs: 'EPSG:25832',
    grid: [690000, 5335000],
    position: [11.55407270413273, 48.13985773317233],
    accuracy: 1,
  },
] as const

test.each(knownByCode)(
  '$crs goes to WGS 84 as PROJ 9.5.1 takes it, and back',
  ({ crs, grid, position, accuracy }) => {
    // A millimetre or two: proj4 gives the Airy ellipsoid by its two axes, PROJ by its flattening.
    near(open(crs).toLngLat(grid), position, 1e-8)
    near(open(crs).toGrid(position), grid, 2e-3)
    expect(open(crs).shiftAccuracyMetres).toBe(accuracy)
  },
)

test('an ellipsoid or datum that proj4 would silently take for WGS 84 is refused', () => {
  for (const named of ['+ellps=WGS72', '+ellps=nonsense', '+datum=nonsense']) {
    const grid = openSiteGrid(`+proj=tmerc +lat_0=48 +lon_0=-30 ${named} +units=m`)
    expect(grid.ok ? [] : grid.issues.map(({ code }) => code)).toEqual(['crs-figure-unknown'])
  }
  for (const named of [
    '+ellps=GRS80',
    '+datum=WGS84',
    '+datum=NAD83',
    '+ellps=airy',
    '+a=6378135 +rf=298.26',
  ])
    expect(openSiteGrid(`+proj=tmerc +lat_0=48 +lon_0=-30 ${named} +units=m`).ok).toBe(true)
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
    'EPSG:27701',
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

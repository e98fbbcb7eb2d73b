import fc from 'fast-check'
import proj4 from 'proj4'
import { expect, test } from 'vitest'
import { fromEarthCentred, shiftFrame, toEarthCentred } from '#domain/geometry/earth-centred.ts'
import { ellipsoids } from '#domain/geometry/ellipsoids.ts'

test('earth-centred and back, to a micrometre', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -180, max: 180, noNaN: true }),
      fc.double({ min: -89, max: 89, noNaN: true }),
      fc.double({ min: -500, max: 9000, noNaN: true }),
      (longitude, latitude, height) => {
        const axes = toEarthCentred([longitude, latitude], height, ellipsoids.WGS84)
        const back = fromEarthCentred(axes, ellipsoids.WGS84)
        const again = toEarthCentred([back.longitude, back.latitude], back.heightMetres, ellipsoids.WGS84)
        expect(Math.hypot(...axes.map((axis, place) => axis - (again[place] ?? 0)))).toBeLessThan(1e-6)
      },
    ),
    { seed: 14 },
  )
})

test('the short form in proj4 differs from the whole matrix by less than a millimetre at the turns of real shifts', () => {
  // The parameters of EPSG transformation 1314.
  const by = [446.448, -125.157, 542.06, 0.15, 0.247, 0.842, -20.489] as const
  const position = [3_980_000, -10_000, 4_970_000] as const
  const short = proj4(
    `+proj=geocent +ellps=airy +towgs84=${by.join(',')} +units=m +no_defs`,
    '+proj=geocent +datum=WGS84 +units=m +no_defs',
    [...position],
  )
  const whole = shiftFrame(position, {
    shiftMetres: [by[0], by[1], by[2]],
    turnArcSeconds: [by[3], by[4], by[5]],
    scalePpm: by[6],
  })
  const apart = Math.hypot(...whole.map((axis, place) => axis - (short[place] ?? 0)))
  expect(apart).toBeLessThan(1e-3)
  expect(apart).toBeGreaterThan(0)
})

test('the other convention turns the other way', () => {
  const position = [3_980_000, -10_000, 4_970_000] as const
  const turns = { shiftMetres: [0, 0, 0], turnArcSeconds: [0.15, 0.247, 0.842] } as const
  const [x1] = shiftFrame(position, { ...turns, convention: 'position-vector' })
  const [x2] = shiftFrame(position, { ...turns, convention: 'coordinate-frame' })
  expect(x1 - position[0]).toBeCloseTo(position[0] - x2, 3)
  expect(Math.abs(x1 - x2)).toBeGreaterThan(5)
})

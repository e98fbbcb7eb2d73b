import {
  fromEarthCentred,
  shiftFrame,
  toEarthCentred,
  toEastNorthUp,
} from '#domain/geometry/earth-centred.ts'
import { ellipsoids } from '#domain/geometry/ellipsoids.ts'
import { combinedFactorOf, gridBearing, gridDistance } from '#domain/geometry/ground-distance.ts'
import { type ControlPair, fitLocalGrid } from '#domain/geometry/local-grid.ts'
import { similarity, transformPlane } from '#domain/geometry/plane-transform.ts'
import { openSiteGrid, type SiteGrid } from '#domain/geometry/site-grid.ts'
import { utmCrs, utmZone } from '#domain/geometry/utm-zone.ts'
import { shiftLevel } from '#domain/geometry/vertical-datum-shift.ts'
import type { PublishedInputs, PublishedTable } from '../published-row.ts'
import { coordinatesRows } from './rows.ts'

export const coordinates: PublishedTable = {
  area: 'coordinates',
  rows: coordinatesRows,
  computed: {
    'CO-01': ({ lat, lon, a, rf, lat0, lon0, k0, FE, FN }) =>
      gridPair(
        open(
          `+proj=tmerc +lat_0=${lat0} +lon_0=${lon0} +k=${k0} +x_0=${FE} +y_0=${FN} +a=${a} +rf=${rf} +units=m +no_defs`,
        ).toGrid([lon, lat]),
      ),
    // What the row leaves out of the definition is as in CO-01.
    'CO-02': ({ E, N, k0, rf }) => {
      const [lon, lat] = open(
        `+proj=tmerc +lat_0=49 +lon_0=-2 +k=${k0} +x_0=400000 +y_0=-100000 +a=6377563.396 +rf=${rf} +units=m +no_defs`,
      ).toLngLat([E, N])
      return { lat, lon }
    },
    'CO-03': ({ lat, lon }) => gridPair(nationalGrid().toGrid([degrees(lon), degrees(lat)])),
    'CO-04': ({ lat, lon }) => {
      const factors = nationalGrid().factorsAt(nationalGrid().toGrid([lon, lat]), 0)
      return { convergence_deg: factors.convergenceDegrees, k: factors.pointScaleFactor }
    },
    'CO-05': utm31,
    'CO-06': utm31,
    'CO-07': utm31,
    'CO-08': utm31,
    'CO-09': utm31,
    'CO-10': utm31,
    'CO-11': utm31,
    'CO-12': ({ points }) =>
      points.map(([lat, lon]: [number, number]) => {
        const [easting, northing] = open(utmCrs([lon, lat])).toGrid([lon, lat])
        return `${utmZone([lon, lat])}${lat < 0 ? 's' : 'n'} ${easting.toFixed(3)} ${northing.toFixed(3)}`
      }),
    'CO-13': ({ lat, lon, h, ellps }) =>
      axes(toEarthCentred([degrees(lon), degrees(lat)], h, ellipsoids[ellps as 'WGS84'])),
    'CO-14': ({ X, Y, Z, dX, dY, dZ }) => {
      const shifted = shiftFrame([X, Y, Z], { shiftMetres: [dX, dY, dZ] })
      const { longitude, latitude, heightMetres } = fromEarthCentred(shifted, ellipsoids.intl)
      return { ...axes(shifted), lat: latitude, lon: longitude, h: heightMetres }
    },
    'CO-15': ({ X, Y, Z, tx, ty, tz, rx_arcsec, ry_arcsec, rz_arcsec, ds_ppm }) =>
      axes(
        shiftFrame([X, Y, Z], {
          shiftMetres: [tx, ty, tz],
          turnArcSeconds: [rx_arcsec, ry_arcsec, rz_arcsec],
          scalePpm: ds_ppm,
          convention: 'position-vector',
        }),
      ),
    // The shift from WGS 72 to WGS 84 is that of CO-15. The ellipsoid is given by its numbers: proj4 does not know the
    // name WGS72 and silently takes WGS 84, 0.2 m off.
    'CO-17': ({ lat, lon, h }) => {
      const { longitude, latitude, heightMetres } = fromEarthCentred(
        shiftFrame(toEarthCentred([lon, lat], h, ellipsoids.WGS72), {
          shiftMetres: [0, 0, 4.5],
          turnArcSeconds: [0, 0, 0.554],
          scalePpm: 0.219,
          convention: 'position-vector',
        }),
        ellipsoids.WGS84,
      )
      return { lat: latitude, lon: longitude, h: heightMetres }
    },
    'CO-18': coordinateFrame,
    'CO-19': coordinateFrame,
    'CO-21': ({ x, y, tx, ty, scale, theta_arcsec }) =>
      gridPair(
        transformPlane(
          // The row counts the turn of the axes, clockwise; the project that of the points, counter-clockwise.
          similarity({
            scale,
            turnRadians: (-theta_arcsec * Math.PI) / 648_000,
            shiftEast: tx,
            shiftNorth: ty,
          }),
          [x, y],
        ),
      ),
    'CO-22': ({ X_ft, Y_ft, A0, A1, A2, B0, B1, B2 }) =>
      gridPair(transformPlane({ a0: A0, a1: A1, a2: A2, b0: B0, b1: B1, b2: B2 }, [X_ft, Y_ft])),
    'CO-23': ({ X, Y, Z, X0, Y0, Z0 }) => {
      const [U, V, W] = toEastNorthUp([X, Y, Z], [X0, Y0, Z0], ellipsoids.WGS84)
      return { U, V, W }
    },
    'CO-24': ({ lat, lon, Hs, A, slope_lat_arcsec, slope_lon_arcsec, lat0, lon0 }) =>
      shiftLevel(Hs, [degrees(lon), degrees(lat)], {
        offsetMetres: A,
        slopeNorthArcSeconds: slope_lat_arcsec,
        slopeEastArcSeconds: slope_lon_arcsec,
        about: [degrees(lon0), degrees(lat0)],
        ellipsoid: ellipsoids.GRS80,
      }),
    'CO-25': (inputs) => {
      const { toCrs, scale, rotationDegrees } = fitted(inputs)
      return {
        a: toCrs.a1,
        b: toCrs.b1,
        tE: toCrs.a0,
        tN: toCrs.b0,
        scale,
        rotation_ccw_deg: rotationDegrees,
      }
    },
    'CO-26': (inputs) => {
      const { residuals, standardErrorMetres } = fitted(inputs)
      return {
        residuals_mm: residuals.map((one) => [one.eastMetres * 1000, one.northMetres * 1000]),
        s0_mm: (standardErrorMetres ?? Number.NaN) * 1000,
      }
    },
    'CO-27': ({ ground_m, k, h_m }) => gridDistance(ground_m, combinedFactorOf(k, h_m)),
    'CO-30': ({ magnetic_azimuth_deg, declination_east_deg, convergence_deg }) =>
      gridBearing(magnetic_azimuth_deg, declination_east_deg, convergence_deg),
  },
}

function open(crs: string): SiteGrid {
  const grid = openSiteGrid(crs)
  if (!grid.ok) throw new Error(grid.issues[0]?.message)
  return grid.value
}

/** The projection of EPSG:27700 without its shift to WGS 84: these rows give latitudes on its own datum. */
const nationalGrid = () => open(open('EPSG:27700').definition.replace(/\+towgs84=\S+ /, ''))

function utm31({ lat, lon }: PublishedInputs) {
  return gridPair(open('EPSG:32631').toGrid([lon, lat]))
}

function coordinateFrame({ X, Y, Z, tx, ty, tz, rx, ry, rz, s_ppm, px, py, pz }: PublishedInputs) {
  return axes(
    shiftFrame([X, Y, Z], {
      shiftMetres: [tx, ty, tz],
      turnArcSeconds: [rx, ry, rz],
      scalePpm: s_ppm,
      convention: 'coordinate-frame',
      ...(px === undefined ? {} : { aboutMetres: [px, py, pz] as const }),
    }),
  )
}

function fitted({ local, grid }: PublishedInputs) {
  const points: ControlPair[] = local.map((at: [number, number], index: number) => ({
    id: `CP-${index + 1}`,
    local: at,
    crs: grid[index],
  }))
  const fit = fitLocalGrid(points)
  if (!fit.ok) throw new Error(fit.issues[0]?.message)
  return fit.value
}

const gridPair = ([E, N]: readonly [number, number]) => ({ E, N })
const axes = ([X, Y, Z]: readonly [number, number, number]) => ({ X, Y, Z })

/** `52 39 27.2531 N`, or without seconds, in degrees. */
function degrees(text: string): number {
  const parts = text.split(' ')
  const side = parts.pop() ?? ''
  const size = parts.reduce((sum, part, index) => sum + Number(part) / 60 ** index, 0)
  return 'SW'.includes(side) ? -size : size
}

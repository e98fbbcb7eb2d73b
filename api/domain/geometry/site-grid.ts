import proj4 from 'proj4'
import { assert } from '../assert.ts'
import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { ellipsoids } from './ellipsoids.ts'
import { crsDefinition } from './epsg-definitions.ts'
import { type GridFactors, gridFactorsAt } from './grid-factors.ts'
import type { LocalGridFit } from './local-grid.ts'
import { invertPlane, transformPlane } from './plane-transform.ts'

/** Longitude, latitude in degrees, WGS 84. A tuple from the other frame is not assignable. */
export type LngLat = readonly [longitude: number, latitude: number] & { readonly frame?: 'lng-lat' }
/** Easting, northing in metres on the site grid. A tuple from the other frame is not assignable. */
export type SitePoint = readonly [eastingMetres: number, northingMetres: number] & {
  readonly frame?: 'site-grid'
}

export interface SiteGrid {
  /** As written in site.csv. */
  readonly crs: string
  /** Name of the CRS where it was given by its code; else the PROJ string. */
  readonly name: string
  /** PROJ string of the CRS. */
  readonly definition: string
  /** How far positions on the earth may be out for want of a better shift to WGS 84, metres; null where it is not known. */
  readonly shiftAccuracyMetres: number | null
  /** How the site's own grid is tied to the CRS by control points; null where the CRS is the site grid. */
  readonly local: LocalGridFit | null
  /** Whether a unit on the grid is a metre on the ground, to a few parts in ten thousand: a site needs that. */
  readonly metres: boolean
  /** Degrees; NaN where the projection does not reach. */
  toLngLat(point: SitePoint): LngLat
  /** Metres; NaN where the projection does not reach. */
  toGrid(position: LngLat): SitePoint
  /** How the grid lies on the ground at a point and a level; only of grids in metres that are true to shape. */
  factorsAt(point: SitePoint, levelMetres: number): GridFactors
}

/**
 * Opens the grid of a CRS: a PROJ string, EPSG:4326, EPSG:3857, a WGS 84 / UTM zone (EPSG:32601 to 32660,
 * 32701 to 32760), or a code of `epsg-definitions.ts`. PROJ strings that need grid files are refused.
 */
export function openSiteGrid(crs: string): Outcome<SiteGrid> {
  const written = crs.trim()
  const code = /^EPSG:(\d{4,5})$/i.exec(written)?.[1] ?? ''
  const known = crsDefinition(code)
  const definition = known?.proj ?? definitionOf(written, code)
  if (definition === null || definition.includes('+nadgrids')) return reject(unknownGrid(crs))
  try {
    if (!namesKnownFigure(definition)) return reject(unknownFigure(crs))
    const converter = proj4('+proj=longlat +datum=WGS84 +no_defs', definition)
    const grid: SiteGrid = {
      crs,
      name: known?.name ?? definition,
      definition,
      shiftAccuracyMetres: known?.shiftAccuracyMetres ?? null,
      local: null,
      metres: isInMetres(definition),
      toLngLat: ([easting, northing]) => pair(converter.inverse([easting, northing])) as LngLat,
      toGrid: ([longitude, latitude]) => pair(converter.forward([longitude, latitude])) as SitePoint,
      factorsAt: (point, level) => gridFactorsAt({ definition, local: null }, point, level),
    }
    grid.toGrid([0, 0])
    return accept(grid)
  } catch {
    return reject(unknownGrid(crs))
  }
}

/** The site's own grid, tied to that of a CRS by control points. */
export function onLocalGrid(grid: SiteGrid, local: LocalGridFit): SiteGrid {
  const back = invertPlane(local.toCrs)
  assert(back !== null, `a similarity of scale ${local.scale} has no way back`)
  return {
    ...grid,
    local,
    toLngLat: (point) => grid.toLngLat(transformPlane(local.toCrs, point)),
    toGrid: (position) => transformPlane(back, grid.toGrid(position)),
    factorsAt: (point, level) => gridFactorsAt({ definition: grid.definition, local }, point, level),
  }
}

const pair = (numbers: readonly number[]) => [numbers[0] ?? Number.NaN, numbers[1] ?? Number.NaN] as const

function unknownGrid(crs: string): Issue {
  return {
    code: 'crs-unknown',
    value: crs,
    expected: 'EPSG:326xx or EPSG:327xx (UTM), EPSG:258xx, 27700, 2154, 2157, 2193, or a PROJ string',
    message: `The grid "${crs}" is not known here. Give it as a PROJ string, such as +proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +ellps=GRS80 +units=m.`,
  }
}

/** proj4 takes WGS 84 without a word for an ellipsoid or datum whose name it does not know, metres off. */
function namesKnownFigure(definition: string): boolean {
  const named = [...definition.matchAll(/\+(ellps|datum)=(\S+)/g)]
  return named.every(([parameter, , name]) => {
    if (/^wgs_?84$/i.test(name ?? '')) return true
    const { a, rf } = proj4.Proj(`+proj=longlat ${parameter} +no_defs`) as unknown as {
      a: number
      rf?: number
    }
    return a !== ellipsoids.WGS84.semiMajorMetres || rf !== ellipsoids.WGS84.inverseFlattening
  })
}

function unknownFigure(crs: string): Issue {
  return {
    code: 'crs-figure-unknown',
    value: crs,
    expected: 'an ellipsoid or datum whose name is known, or +a= and +rf=',
    message: `The ellipsoid or datum named in "${crs}" is not known here. Give it by its numbers: +a= (metres) and +rf=, and +towgs84= where its datum is not WGS 84.`,
  }
}

function definitionOf(crs: string, code: string): string | null {
  if (crs.startsWith('+proj=')) return crs
  return code === '4326' || code === '3857' ? `EPSG:${code}` : null
}

/** Web Mercator calls its units metres, but stretches them by 1/cos(latitude). */
function isInMetres(definition: string): boolean {
  if (/^EPSG:|\+proj=(longlat|latlong|merc|webmerc)\b/.test(definition)) return false
  const units = /\+units=(\S+)/.exec(definition)?.[1] ?? 'm'
  return units === 'm' && !/\+to_meter=/.test(definition)
}

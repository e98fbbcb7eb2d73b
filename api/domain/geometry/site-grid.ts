import proj4 from 'proj4'
import { accept, type Issue, type Outcome, reject } from '../outcome.ts'

/** Longitude, latitude in degrees, WGS 84. A tuple from the other frame is not assignable. */
export type LngLat = readonly [longitude: number, latitude: number] & { readonly frame?: 'lng-lat' }
/** Easting, northing in metres on the site grid. A tuple from the other frame is not assignable. */
export type SitePoint = readonly [eastingMetres: number, northingMetres: number] & {
  readonly frame?: 'site-grid'
}

export interface SiteGrid {
  readonly crs: string
  /** Whether a unit on the grid is a metre on the ground, to a few parts in ten thousand: a site needs that. */
  readonly metres: boolean
  /** Degrees; NaN where the projection does not reach. */
  toLngLat(point: SitePoint): LngLat
  /** Metres; NaN where the projection does not reach. */
  toGrid(position: LngLat): SitePoint
}

/**
 * Opens the grid of a CRS: a PROJ string, or EPSG:4326, EPSG:3857 or a WGS 84 / UTM zone (EPSG:32601 to
 * 32660, 32701 to 32760), which need no definition from elsewhere. PROJ strings that need grid files are refused.
 */
export function openSiteGrid(crs: string): Outcome<SiteGrid> {
  const definition = definitionOf(crs.trim())
  if (definition === null || definition.includes('+nadgrids')) return reject(unknownGrid(crs))
  try {
    const converter = proj4('+proj=longlat +datum=WGS84 +no_defs', definition)
    const grid: SiteGrid = {
      crs,
      metres: isInMetres(definition),
      toLngLat: ([easting, northing]) => pair(converter.inverse([easting, northing])) as LngLat,
      toGrid: ([longitude, latitude]) => pair(converter.forward([longitude, latitude])) as SitePoint,
    }
    grid.toGrid([0, 0])
    return accept(grid)
  } catch {
    return reject(unknownGrid(crs))
  }
}

const pair = (numbers: readonly number[]) => [numbers[0] ?? Number.NaN, numbers[1] ?? Number.NaN] as const

function unknownGrid(crs: string): Issue {
  return {
    code: 'crs-unknown',
    value: crs,
    expected: 'EPSG:326xx or EPSG:327xx (UTM), EPSG:3857, EPSG:4326, or a PROJ string',
    message: `The grid "${crs}" is not known here. Give it as a PROJ string, such as +proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +ellps=GRS80 +units=m.`,
  }
}

function definitionOf(crs: string): string | null {
  if (crs.startsWith('+proj=')) return crs
  const code = /^EPSG:(\d{4,5})$/i.exec(crs)?.[1]
  if (code === '4326' || code === '3857') return `EPSG:${code}`
  const utm = /^32([67])(\d{2})$/.exec(code ?? '')
  const zone = Number(utm?.[2])
  if (!utm || zone < 1 || zone > 60) return null
  return `+proj=utm +zone=${zone}${utm[1] === '7' ? ' +south' : ''} +datum=WGS84 +units=m +no_defs`
}

/** Web Mercator calls its units metres, but stretches them by 1/cos(latitude). */
function isInMetres(definition: string): boolean {
  if (/^EPSG:|\+proj=(longlat|latlong|merc|webmerc)\b/.test(definition)) return false
  const units = /\+units=(\S+)/.exec(definition)?.[1] ?? 'm'
  return units === 'm' && !/\+to_meter=/.test(definition)
}

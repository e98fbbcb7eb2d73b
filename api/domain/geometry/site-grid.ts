import proj4 from 'proj4'
import { accept, type Outcome, reject } from '../outcome.ts'

/** Longitude, latitude in degrees, WGS 84. */
export type LngLat = readonly [longitude: number, latitude: number] & { readonly frame?: 'lng-lat' }
/** Easting, northing in metres on the site grid. */
export type SitePoint = readonly [eastingMetres: number, northingMetres: number] & {
  readonly frame?: 'site-grid'
}

export interface SiteGrid {
  readonly crs: string
  /** Degrees; throws nothing, gives NaN outside the projection's reach. */
  toLngLat(point: SitePoint): LngLat
  toGrid(position: LngLat): SitePoint
}

/**
 * Opens the site grid of a CRS: a PROJ string, or EPSG:4326, EPSG:3857 or a WGS 84 / UTM zone
 * (EPSG:32601–32660, 32701–32760), which need no definition from elsewhere.
 */
export function openSiteGrid(crs: string): Outcome<SiteGrid> {
  const definition = definitionOf(crs.trim())
  if (definition === null) return reject(unknownGrid(crs))
  try {
    const converter = proj4('+proj=longlat +datum=WGS84 +no_defs', definition)
    return accept({
      crs,
      toLngLat: ([easting, northing]) => pair(converter.inverse([easting, northing])) as LngLat,
      toGrid: ([longitude, latitude]) => pair(converter.forward([longitude, latitude])) as SitePoint,
    })
  } catch {
    return reject(unknownGrid(crs))
  }
}

const pair = ([first, second]: readonly number[]) => [first, second] as const

function unknownGrid(crs: string) {
  return {
    code: 'crs-unknown',
    value: crs,
    expected: 'EPSG:326xx or EPSG:327xx (UTM), EPSG:3857, EPSG:4326, or a PROJ string',
    message: `The site grid "${crs}" is not known here. Give it as a PROJ string, such as +proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +ellps=GRS80 +units=m.`,
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

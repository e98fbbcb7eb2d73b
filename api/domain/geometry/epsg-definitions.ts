/** A grid by its EPSG code, with how its datum is brought to WGS 84. */
export interface CrsDefinition {
  readonly name: string
  /** PROJ string: parameters of the projection and, where the datum is another, its shift to WGS 84. */
  readonly proj: string
  /** How far the position on the earth may be out for want of a better shift, metres; null where none is made. */
  readonly shiftAccuracyMetres: number | null
  /** Where the parameters stand in the EPSG dataset. */
  readonly source: string
}

const etrs89 = 'ETRS89 is taken as WGS 84 (EPSG transformation 1149, 1 m)'

/**
 * Grids that are known without asking anyone, beside the UTM zones of WGS 84. Any other is given in site.csv as
 * a PROJ string, or tied to one of these by control points.
 */
const byCode: Readonly<Record<string, CrsDefinition>> = {
  27700: {
    name: 'OSGB36 / British National Grid',
    proj: '+proj=tmerc +lat_0=49 +lon_0=-2 +k=0.9996012717 +x_0=400000 +y_0=-100000 +ellps=airy +towgs84=446.448,-125.157,542.06,0.15,0.247,0.842,-20.489 +units=m +no_defs',
    shiftAccuracyMetres: 2,
    source: 'EPSG 27700; shift by seven parameters, EPSG transformation 1314, 2 m',
  },
  2157: {
    name: 'IRENET95 / Irish Transverse Mercator',
    proj: '+proj=tmerc +lat_0=53.5 +lon_0=-8 +k=0.99982 +x_0=600000 +y_0=750000 +ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m +no_defs',
    shiftAccuracyMetres: 1,
    source: 'EPSG 2157; IRENET95 is taken as WGS 84 (EPSG transformation 1678, 1 m)',
  },
  2154: {
    name: 'RGF93 v1 / Lambert-93',
    proj: '+proj=lcc +lat_0=46.5 +lon_0=3 +lat_1=49 +lat_2=44 +x_0=700000 +y_0=6600000 +ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m +no_defs',
    shiftAccuracyMetres: 1,
    source: 'EPSG 2154; RGF93 is taken as WGS 84 (EPSG transformation 1671, 1 m)',
  },
  2193: {
    name: 'NZGD2000 / New Zealand Transverse Mercator 2000',
    proj: '+proj=tmerc +lat_0=0 +lon_0=173 +k=0.9996 +x_0=1600000 +y_0=10000000 +ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m +no_defs',
    shiftAccuracyMetres: 1,
    source: 'EPSG 2193; NZGD2000 is taken as WGS 84 (EPSG transformation 1565, 1 m)',
  },
}

/** Definition of an EPSG code (digits only) of a grid in metres; null where it is not known here. */
export function crsDefinition(code: string): CrsDefinition | null {
  const known = Object.hasOwn(byCode, code) ? byCode[code] : undefined
  return known ?? utmDefinition(code)
}

function utmDefinition(code: string): CrsDefinition | null {
  const [, family = '', digits = ''] = /^(326|327|258)(\d{2})$/.exec(code) ?? []
  const zone = Number(digits)
  if (family === '258')
    return zone < 28 || zone > 38
      ? null
      : {
          name: `ETRS89 / UTM zone ${zone}N`,
          proj: `+proj=utm +zone=${zone} +ellps=GRS80 +towgs84=0,0,0,0,0,0,0 +units=m +no_defs`,
          shiftAccuracyMetres: 1,
          source: `EPSG ${code}; ${etrs89}`,
        }
  if (family === '' || zone < 1 || zone > 60) return null
  const south = family === '327'
  return {
    name: `WGS 84 / UTM zone ${zone}${south ? 'S' : 'N'}`,
    proj: `+proj=utm +zone=${zone}${south ? ' +south' : ''} +datum=WGS84 +units=m +no_defs`,
    shiftAccuracyMetres: null,
    source: `EPSG ${code}`,
  }
}

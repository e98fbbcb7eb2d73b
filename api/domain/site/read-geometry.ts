import type { Geometry } from 'geojson'

export type GeometryOutcome =
  | { readonly geometry: Geometry }
  | { readonly path: string; readonly value: string; readonly expected: string; readonly message: string }

const depthOfPositions = {
  Point: 0,
  MultiPoint: 1,
  LineString: 1,
  MultiLineString: 2,
  Polygon: 2,
  MultiPolygon: 3,
} as const

/** Checks a GeoJSON geometry (RFC 7946 section 3.1): kinds, longitude and latitude ranges, closed rings. */
export function readGeometry(written: unknown): GeometryOutcome {
  const kinds = Object.keys(depthOfPositions)
  if (!isRecord(written))
    return wrong(
      'geometry',
      written,
      'a geometry',
      'The feature has no geometry. Draw it, or take the feature away.',
    )
  const kind = written.type
  if (typeof kind !== 'string' || !Object.hasOwn(depthOfPositions, kind))
    return wrong(
      'geometry.type',
      kind,
      kinds.join(', '),
      `Geometry type ${show(kind)} cannot be used. Give one of ${kinds.join(', ')}, one feature for each part.`,
    )
  const depth = depthOfPositions[kind as keyof typeof depthOfPositions]
  const fault = checkNested(written.coordinates, depth, 'geometry.coordinates', kind)
  return fault ?? { geometry: written as unknown as Geometry }
}

export const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

function checkNested(value: unknown, depth: number, path: string, kind: string): GeometryOutcome | null {
  if (depth === 0) return checkPosition(value, path)
  if (!Array.isArray(value) || value.length === 0)
    return wrong(
      path,
      value,
      'a list of coordinates',
      'Coordinates are missing here. Draw the geometry again.',
    )
  for (const [index, inner] of value.entries()) {
    const fault = checkNested(inner, depth - 1, `${path}[${index}]`, kind)
    if (fault) return fault
  }
  if (depth === 1 && kind.endsWith('LineString') && value.length < 2)
    return wrong(path, value, 'two positions or more', 'A line needs two positions or more.')
  if (depth === 1 && kind.endsWith('Polygon')) {
    const first = value[0] as number[]
    const last = value.at(-1) as number[]
    if (value.length < 4 || first[0] !== last[0] || first[1] !== last[1])
      return wrong(
        path,
        value,
        'four positions or more, the last the same as the first',
        'This ring is not closed. Repeat its first position at its end.',
      )
  }
  return null
}

function checkPosition(value: unknown, path: string): GeometryOutcome | null {
  const [longitude, latitude] = Array.isArray(value) ? value : []
  const sound =
    Array.isArray(value) && (value.length === 2 || value.length === 3) && value.every(Number.isFinite)
  if (sound && Math.abs(longitude) <= 180 && Math.abs(latitude) <= 90) return null
  return wrong(
    path,
    value,
    'longitude from -180 to 180, then latitude from -90 to 90, in degrees (WGS 84)',
    `${show(value)} is not a longitude and latitude. GeoJSON holds WGS 84 degrees, longitude first; export it again in EPSG:4326.`,
  )
}

function wrong(path: string, value: unknown, expected: string, message: string): GeometryOutcome {
  return { path, value: show(value), expected, message }
}

function show(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing'
  return text.length > 80 ? `${text.slice(0, 77)}…` : text
}

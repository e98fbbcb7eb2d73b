import type { Feature, Geometry } from 'geojson'
import type { Issue } from '../outcome.ts'
import type { Column } from './column.ts'
import { featureLines } from './feature-lines.ts'
import { nearestWord } from './nearest-word.ts'
import { type CellValue, readCell } from './read-cell.ts'
import { isRecord, readGeometry } from './read-geometry.ts'
import type { Works, WorksProperties } from './site.ts'
import { type WorksFields, worksFields } from './site-columns.ts'

export const worksFile = 'works.geojson'

/** Reads `works.geojson` (RFC 7946). `works` is null where anything in it is faulty. */
export function readWorks(content: string): { works: Works | null; issues: readonly Issue[] } {
  const text = content.charCodeAt(0) === 0xfeff ? content.slice(1) : content
  const parsed = parseJson(text)
  if ('issue' in parsed) return { works: null, issues: [parsed.issue] }
  const root = parsed.value
  if (!isRecord(root) || root.type !== 'FeatureCollection' || !Array.isArray(root.features)) {
    return {
      works: null,
      issues: [
        {
          code: 'geojson-structure',
          file: worksFile,
          line: 1,
          expected: '{"type":"FeatureCollection","features":[…]}',
          message:
            'works.geojson must hold a FeatureCollection with a list of features. Export it again as GeoJSON.',
        },
      ],
    }
  }
  const issues: Issue[] = []
  const name = isRecord(root.crs) && isRecord(root.crs.properties) ? root.crs.properties.name : undefined
  if (root.crs != null && !/CRS84$|EPSG::?4326$/.test(String(name)))
    issues.push({
      code: 'geojson-crs',
      file: worksFile,
      line: 1,
      column: 'crs',
      value: String(name),
      expected: 'WGS 84 longitude and latitude, no crs member',
      message: 'GeoJSON is always WGS 84 longitude and latitude. Export it again in EPSG:4326.',
    })
  const lines = root.features.length > 0 ? featureLines(text) : []
  const firstLines = new Map<string, number>()
  const features: Feature<Geometry, WorksProperties>[] = []
  root.features.forEach((written: unknown, index) => {
    const feature = readFeature(written, index, lines[index] ?? 1, firstLines, issues)
    if (feature) features.push(feature)
  })
  return { works: issues.length === 0 ? { type: 'FeatureCollection', features } : null, issues }
}

function parseJson(text: string): { readonly value: unknown } | { readonly issue: Issue } {
  try {
    return { value: JSON.parse(text) }
  } catch (cause) {
    const reason = cause instanceof Error ? cause.message : String(cause)
    const at = /position (\d+)/.exec(reason)?.[1]
    const line = at === undefined ? text.split('\n').length : text.slice(0, Number(at)).split('\n').length
    return {
      issue: {
        code: 'json-unreadable',
        file: worksFile,
        line,
        value: (text.split('\n')[line - 1] ?? '').slice(0, 80),
        expected: 'JSON',
        message: `This is not JSON (${reason}). Correct the line or export the file again.`,
      },
    }
  }
}

function readFeature(
  written: unknown,
  index: number,
  line: number,
  firstLines: Map<string, number>,
  issues: Issue[],
): Feature<Geometry, WorksProperties> | null {
  const before = issues.length
  const here = (path: string) => ({ file: worksFile, line, column: `features[${index}].${path}` })
  if (!isRecord(written) || written.type !== 'Feature' || !isRecord(written.properties)) {
    issues.push({
      ...here('type'),
      code: 'geojson-structure',
      expected: 'a Feature with geometry and properties',
      message: 'This is not a Feature with geometry and properties. Export it again as GeoJSON.',
    })
    return null
  }
  const properties = written.properties
  const values: Record<string, CellValue> = {}
  const known = Object.entries<Column>(worksFields)
  for (const [name, column] of known) {
    const cell = asCellText(column, properties[name])
    const outcome = readCell(column, cell)
    if ('value' in outcome) values[name] = outcome.value
    else issues.push({ ...outcome.fault, ...here(`properties.${name}`), value: cell })
  }
  for (const name of Object.keys(properties)) {
    if (Object.hasOwn(worksFields, name)) continue
    const nearest = nearestWord(
      name,
      known.map(([field]) => field).filter((field) => !(field in properties)),
    )
    issues.push({
      ...here(`properties.${name}`),
      code: 'property-unknown',
      value: name,
      expected: known.map(([field]) => field).join(', '),
      message: `Property "${name}" is not known here. ${nearest ? `Did you mean "${nearest}"?` : 'Take it away.'}`,
    })
  }
  const shape = readGeometry(written.geometry)
  if (!('geometry' in shape)) {
    const { path, ...rest } = shape
    issues.push({ ...here(path), code: 'geometry', ...rest })
  }
  checkFeature(values as Partial<WorksFields>, line, here, firstLines, issues)
  if (issues.length > before || !('geometry' in shape)) return null
  const { fromAt, untilAt, ...rest } = values as WorksFields
  return {
    type: 'Feature',
    geometry: shape.geometry,
    properties: { ...rest, fromEpochMs: fromAt, untilEpochMs: untilAt },
  }
}

/** JSON values as the text a table cell would hold, so that both are checked by the same rules. */
function asCellText(column: Column, value: unknown): string {
  if (value === undefined || value === null) return ''
  if (typeof value === 'boolean' && column.type === 'flag') return value ? 'yes' : 'no'
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean')
    return String(value)
  return JSON.stringify(value)
}

function checkFeature(
  values: Partial<WorksFields>,
  line: number,
  here: (path: string) => { file: string; line: number; column: string },
  firstLines: Map<string, number>,
  issues: Issue[],
): void {
  const { id, fromAt, untilAt, topLevelMetres: top, baseLevelMetres: base } = values
  const first = id === undefined ? undefined : firstLines.get(id)
  if (id !== undefined && first !== undefined)
    issues.push({
      ...here('properties.id'),
      code: 'key-repeated',
      value: id,
      expected: 'each id once',
      message: `"${id}" already stands in line ${first}. Rename one of the two features.`,
    })
  if (id !== undefined && first === undefined) firstLines.set(id, line)
  if (fromAt != null && untilAt != null && untilAt <= fromAt)
    issues.push({
      ...here('properties.untilAt'),
      code: 'ends-before-begin',
      value: new Date(untilAt).toISOString(),
      expected: 'later than fromAt',
      message: 'untilAt is not later than fromAt. Exchange or correct them.',
    })
  if (top != null && base != null && top <= base)
    issues.push({
      ...here('properties.topLevelMetres'),
      code: 'top-below-base',
      value: String(top),
      expected: `above ${base}`,
      message: 'The top is not above the base. Levels are metres on the site datum, up positive.',
    })
}

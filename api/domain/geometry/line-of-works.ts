import { booleanPointInPolygon } from '@turf/turf'
import type { Position } from 'geojson'
import type { Works, WorksProperties } from '../site/site.ts'
import { lengthOfLine, pointAtChainage } from './alignment.ts'
import type { SiteGrid, SitePoint } from './site-grid.ts'

/** What a section line cuts of one feature of the works. */
export interface WorksCut {
  readonly works: WorksProperties
  /** Chainages along the section, metres. Equal where a line (a wall, a service) is crossed at a point. */
  readonly fromChainageMetres: number
  readonly untilChainageMetres: number
  readonly topLevelMetres: number | null
  readonly baseLevelMetres: number | null
}

/**
 * Where a section line cuts the works that exist at an instant (null: all of them), by chainage. Polygons give
 * the intervals inside them, edges included; lines give the chainages of their crossings; points give nothing.
 *
 * Of turf, only what reckons in the plane may be given grid metres: booleanPointInPolygon does (so do lineIntersect,
 * polygonClipping functions and booleanContains); distance, length, area, buffer and nearestPointOnLine take
 * degrees on a sphere. Crossings are found here, because the chainage is wanted and not the point.
 */
export function worksAlongSection(
  line: readonly SitePoint[],
  works: Works,
  grid: SiteGrid,
  atEpochMs: number | null,
): readonly WorksCut[] {
  const cuts: WorksCut[] = []
  const onGrid = (position: Position): SitePoint => grid.toGrid([position[0] ?? 0, position[1] ?? 0])
  for (const { geometry, properties } of works.features) {
    if (!existsAt(properties, atEpochMs)) continue
    const add = (fromChainageMetres: number, untilChainageMetres: number) =>
      cuts.push({
        works: properties,
        fromChainageMetres,
        untilChainageMetres,
        topLevelMetres: properties.topLevelMetres,
        baseLevelMetres: properties.baseLevelMetres,
      })
    if (geometry.type === 'Polygon' || geometry.type === 'MultiPolygon') {
      const polygons = geometry.type === 'Polygon' ? [geometry.coordinates] : geometry.coordinates
      for (const polygon of polygons)
        for (const [from, until] of intervalsInside(
          line,
          polygon.map((ring) => ring.map(onGrid)),
        ))
          add(from, until)
    } else if (geometry.type === 'LineString' || geometry.type === 'MultiLineString') {
      const lines = geometry.type === 'LineString' ? [geometry.coordinates] : geometry.coordinates
      const chainages = lines.flatMap((positions) => crossings(line, positions.map(onGrid)))
      for (const chainage of distinct(chainages)) add(chainage, chainage)
    }
  }
  return cuts.toSorted((a, b) => a.fromChainageMetres - b.fromChainageMetres)
}

function existsAt({ fromEpochMs, untilEpochMs }: WorksProperties, atEpochMs: number | null): boolean {
  if (atEpochMs === null) return true
  return (fromEpochMs ?? -Infinity) <= atEpochMs && atEpochMs < (untilEpochMs ?? Infinity)
}

function intervalsInside(
  line: readonly SitePoint[],
  rings: readonly (readonly SitePoint[])[],
): readonly (readonly [number, number])[] {
  const breaks = distinct([0, lengthOfLine(line), ...rings.flatMap((ring) => crossings(line, ring))])
  const polygon = { type: 'Polygon' as const, coordinates: rings.map((ring) => ring.map(([e, n]) => [e, n])) }
  const inside: [number, number][] = []
  for (let i = 0; i + 1 < breaks.length; i++) {
    const from = breaks[i] as number
    const until = breaks[i + 1] as number
    const middle = pointAtChainage(line, (from + until) / 2)
    if (!middle || !booleanPointInPolygon([middle[0], middle[1]], polygon)) continue
    const last = inside.at(-1)
    if (last && last[1] === from) last[1] = until
    else inside.push([from, until])
  }
  return inside
}

/** Chainages of `line` at which it meets `other`; stretches that run along each other give their ends only. */
function crossings(line: readonly SitePoint[], other: readonly SitePoint[]): readonly number[] {
  const found: number[] = []
  let start = 0
  for (let i = 0; i + 1 < line.length; i++) {
    const [ae, an] = line[i] as SitePoint
    const [be, bn] = line[i + 1] as SitePoint
    const length = Math.hypot(be - ae, bn - an)
    for (let j = 0; j + 1 < other.length; j++) {
      const [ce, cn] = other[j] as SitePoint
      const [de, dn] = other[j + 1] as SitePoint
      const cross = (be - ae) * (dn - cn) - (bn - an) * (de - ce)
      if (cross === 0) continue
      const alongLine = ((ce - ae) * (dn - cn) - (cn - an) * (de - ce)) / cross
      const alongOther = ((ce - ae) * (bn - an) - (cn - an) * (be - ae)) / cross
      const slack = 1e-9
      if (alongLine < -slack || alongLine > 1 + slack || alongOther < -slack || alongOther > 1 + slack)
        continue
      found.push(start + Math.min(Math.max(alongLine, 0), 1) * length)
    }
    start += length
  }
  return found
}

/** Sorted, without those a tenth of a millimetre or less after another. */
function distinct(chainages: readonly number[]): readonly number[] {
  return chainages
    .toSorted((a, b) => a - b)
    .filter((chainage, index, sorted) => index === 0 || chainage - (sorted[index - 1] as number) > 1e-4)
}

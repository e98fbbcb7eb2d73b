import { lengthOfLine, type Station, stationOf } from '#domain/geometry/alignment.ts'
import type { SiteGrid, SitePoint } from '#domain/geometry/site-grid.ts'
import type { Works, WorksProperties } from '#domain/site/site.ts'
import { standsAt } from '../../views/section/works-marks.ts'

/** A wall beside an inclinometer: the long face of its outline that lies away from the dig, as a line. */
export interface WallFace {
  readonly id: string
  readonly name: string
  readonly line: readonly SitePoint[]
  readonly dugSide: 'left' | 'right'
  /** Bearing from grid north at which the dig lies, square to the face. */
  readonly bearingIntoDigDegrees: number
  readonly stationOf: (point: SitePoint) => Station | null
}

/**
 * The wall of the works within a distance of a place at an instant, seen from the excavations then open: the nearest one.
 * Null where no wall stands so near, or nothing is dug on either side of it.
 */
export function wallBeside(
  works: Works,
  grid: SiteGrid,
  place: SitePoint,
  { atEpochMs, withinMetres }: { readonly atEpochMs: number; readonly withinMetres: number },
): WallFace | null {
  const standing = outlines(works, grid).filter(({ properties }) => standsAt(properties, atEpochMs))
  const dig = standing.find(({ properties }) => properties.kind === 'excavation')
  if (!dig) return null
  const middle = middleOf(dig.line)
  const walls = standing.flatMap(({ properties, line }) => {
    const away = stationOf(line, place)?.distanceMetres ?? Number.POSITIVE_INFINITY
    return properties.kind === 'wall' && away <= withinMetres ? [{ properties, line, away }] : []
  })
  const nearest = walls.toSorted((one, other) => one.away - other.away)[0]
  if (!nearest) return null
  const face = faceAwayFrom(nearest.line, middle)
  const station = stationOf(face, middle, { extended: true })
  const [from, to] = [face[0], face.at(-1)]
  if (!station || station.offsetMetres === 0 || !from || !to) return null
  const dugSide = station.offsetMetres > 0 ? 'right' : 'left'
  const along = (Math.atan2(to[0] - from[0], to[1] - from[1]) * 180) / Math.PI
  return {
    id: nearest.properties.id,
    name: nearest.properties.name,
    line: face,
    dugSide,
    bearingIntoDigDegrees: (along + (dugSide === 'right' ? 90 : 270) + 360) % 360,
    stationOf: (point) => stationOf(face, point),
  }
}

/** Lines and outer rings on the site grid. */
function outlines(
  works: Works,
  grid: SiteGrid,
): readonly { readonly properties: WorksProperties; readonly line: readonly SitePoint[] }[] {
  return works.features.flatMap(({ geometry, properties }) => {
    const line =
      geometry.type === 'LineString'
        ? geometry.coordinates
        : geometry.type === 'Polygon'
          ? geometry.coordinates[0]
          : undefined
    return line ? [{ properties, line: line.map((at) => grid.toGrid([at[0] ?? 0, at[1] ?? 0])) }] : []
  })
}

/** Of a closed outline the side of half its longest length or more that lies farthest from a place; a line is its own face. */
function faceAwayFrom(line: readonly SitePoint[], place: SitePoint): readonly SitePoint[] {
  const [first, last] = [line[0], line.at(-1)]
  if (!first || !last || Math.hypot(first[0] - last[0], first[1] - last[1]) > 0.01) return line
  const sides = line.slice(1).map((to, at) => [line[at] as SitePoint, to] as const)
  const longest = Math.max(...sides.map(lengthOfLine))
  const away = (side: readonly SitePoint[]) =>
    Math.abs(stationOf(side, place, { extended: true })?.offsetMetres ?? 0)
  return (
    sides
      .filter((side) => lengthOfLine(side) >= longest / 2)
      .toSorted((one, other) => away(other) - away(one))[0] ?? line
  )
}

const middleOf = (ring: readonly SitePoint[]): SitePoint => [
  (Math.min(...ring.map(([e]) => e)) + Math.max(...ring.map(([e]) => e))) / 2,
  (Math.min(...ring.map(([, n]) => n)) + Math.max(...ring.map(([, n]) => n))) / 2,
]

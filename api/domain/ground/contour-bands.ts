import type { SitePoint } from '../geometry/site-grid.ts'
import type { ContourBand } from './contours.ts'
import { firstAbove } from './first-above.ts'
import { joinSegments, type Segments } from './join-segments.ts'
import type { LevelLine } from './level-lines.ts'
import { crossingOf } from './mesh-crossing.ts'
import { nestRings } from './nest-rings.ts'
import type { SurfaceMesh } from './settlement-surface.ts'

/**
 * Bands between levels, from the lowest up. A line bounds the band above it on its left, and the one below on its right:
 * closed lines are rings of both as they are; open ones, and those that may touch others, are joined with the sides at
 * the edge of the mesh.
 */
export function contourBands(
  mesh: SurfaceMesh,
  levels: readonly number[],
  lines: readonly (readonly LevelLine[])[],
  lowest: number,
  highest: number,
): readonly ContourBand[] {
  const edges: Segments[] = Array.from({ length: levels.length + 1 }, () => [])
  walkRim(mesh, levels, edges)
  return edges.flatMap((edge, band) => {
    const below = lines[band - 1] ?? []
    const above = (lines[band] ?? []).map((line) => ({ ...line, points: line.points.toReversed() }))
    const rings: (readonly SitePoint[])[] = []
    const spans = new Spans()
    for (const { points, closed, meetsNode } of [...below, ...above])
      if (meetsNode) addSegments(edge, points)
      else if (closed) rings.push(points)
      else spans.add(edge, points)
    for (const { coordinates } of joinSegments(edge)) rings.push(spans.whole(coordinates))
    const polygons = nestRings(rings, 1e-12 * mesh.extentMetres ** 2)
    if (polygons.length === 0) return []
    return {
      lowMm: band === 0 ? lowest : Math.max(lowest, levels[band - 1] as number),
      highMm: Math.min(highest, levels[band] ?? highest),
      polygons,
    }
  })
}

/** Shares out the sides at the edge of the mesh among the bands that they pass. */
function walkRim(mesh: SurfaceMesh, levels: readonly number[], edges: readonly Segments[]): void {
  const { rim, valueMm, east, north, origin } = mesh
  for (let index = 0; index < rim.length; index += 2) {
    const from = rim[index] as number
    const to = rim[index + 1] as number
    let band = firstAbove(levels, valueMm[from] as number)
    const last = firstAbove(levels, valueMm[to] as number)
    let [e, n]: SitePoint = [origin[0] + (east[from] as number), origin[1] + (north[from] as number)]
    while (band !== last) {
      const [te, tn] = crossingOf(mesh, from, to, levels[band < last ? band : band - 1] as number)
      edges[band]?.push(e, n, te, tn)
      e = te
      n = tn
      band += band < last ? 1 : -1
    }
    edges[band]?.push(e, n, origin[0] + (east[to] as number), origin[1] + (north[to] as number))
  }
}

function addSegments(segments: Segments, points: readonly SitePoint[]): void {
  for (let index = 1; index < points.length; index++) {
    const [from, to] = [points[index - 1] as SitePoint, points[index] as SitePoint]
    segments.push(from[0], from[1], to[0], to[1])
  }
}

/** Lines of which only the ends are joined with others: what lies between their second places from both ends. */
class Spans {
  readonly #from = new Map<number, (readonly SitePoint[])[]>()

  /** The ends as they are, and what is between as one segment. */
  add(segments: Segments, points: readonly SitePoint[]): void {
    if (points.length < 6) {
      addSegments(segments, points)
      return
    }
    const [first, second] = points as readonly [SitePoint, SitePoint]
    addSegments(segments, [first, second, points.at(-2) as SitePoint, points.at(-1) as SitePoint])
    const known = this.#from.get(second[0])
    if (known) known.push(points)
    else this.#from.set(second[0], [points])
  }

  /** A joined line with everything between put back. */
  whole(coordinates: readonly number[]): readonly SitePoint[] {
    const whole: SitePoint[] = []
    for (let index = 0; index < coordinates.length; index += 2) {
      const [e, n] = [coordinates[index] as number, coordinates[index + 1] as number]
      whole.push([e, n])
      const span = this.#from
        .get(e)
        ?.find(
          (points) =>
            points[1]?.[1] === n &&
            points.at(-2)?.[0] === coordinates[index + 2] &&
            points.at(-2)?.[1] === coordinates[index + 3],
        )
      if (span) for (let at = 2; at < span.length - 2; at++) whole.push(span[at] as SitePoint)
    }
    return whole
  }
}

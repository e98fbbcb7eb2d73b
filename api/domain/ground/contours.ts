import type { SitePoint } from '../geometry/site-grid.ts'
import { roundTicks } from '../statistics/round-ticks.ts'
import { type JoinedLine, joinSegments, type Segments } from './join-segments.ts'
import { type SettlementSurface, type SurfaceMesh, toSitePoints } from './settlement-surface.ts'

export interface ContourLine {
  readonly levelMm: number
  /** The lower side lies on the right (on both, where a ridge runs at the level). A closed line repeats its first point. */
  readonly points: readonly SitePoint[]
  /** False: both ends lie on the edge of the mask. */
  readonly closed: boolean
}

export interface ContourBand {
  readonly lowMm: number
  readonly highMm: number
  /** Outer ring first, counter-clockwise, then its holes, clockwise; rings repeat their first point. */
  readonly polygons: readonly (readonly (readonly SitePoint[])[])[]
}

export interface Contours
  extends Pick<
    SettlementSurface,
    'method' | 'parameters' | 'pointsUsed' | 'pointsLeftOut' | 'pointsMerged' | 'mask'
  > {
  readonly levelsMm: readonly number[]
  readonly lines: readonly ContourLine[]
  /** From the lowest up; together they cover the mask once. */
  readonly bands: readonly ContourBand[]
}

/** Round levels strictly between two values, in steps of 1, 2 or 5 times a power of ten, at most `atMost`. */
export function contourLevels(lowMm: number, highMm: number, atMost = 12): readonly number[] {
  if (!(highMm - lowMm > 1e-9 * Math.max(Math.abs(lowMm), Math.abs(highMm)))) return []
  return roundTicks(lowMm, highMm, atMost).filter((level) => level > lowMm && level < highMm)
}

/**
 * Exact level lines and filled bands of a linear surface (marching triangles). A node exactly at a level counts as
 * above it, so that every line ends on the edge of the mask or closes. Levels must rise.
 */
export function drawContours(
  surface: SettlementSurface,
  levelsMm: readonly number[] = contourLevels(surface.lowestMm, surface.highestMm),
): Contours {
  const { mesh, method, parameters, pointsUsed, pointsLeftOut, pointsMerged, mask } = surface
  return {
    method,
    parameters,
    pointsUsed,
    pointsLeftOut,
    pointsMerged,
    mask,
    levelsMm,
    ...meshContours(mesh, surface.lowestMm, surface.highestMm, levelsMm),
  }
}

/** Lines and bands of a mesh, of whatever unit its values are; they agree exactly with each other. */
export function meshContours(
  mesh: SurfaceMesh,
  lowest: number,
  highest: number,
  levels: readonly number[],
): Pick<Contours, 'lines' | 'bands'> {
  const lines: Segments[] = levels.map(() => [])
  const outlines: Segments[] = Array.from({ length: levels.length + 1 }, () => [])
  marchTriangles(mesh, levels, lines, outlines)
  walkRim(mesh, levels, outlines)
  const bands = outlines.map((outline, index) => ({
    lowMm: index === 0 ? lowest : Math.max(lowest, levels[index - 1] as number),
    highMm: Math.min(highest, levels[index] ?? highest),
    polygons: nestRings(joinSegments(outline), 1e-12 * mesh.extentMetres ** 2).map((rings) =>
      rings.map(({ coordinates }) => toSitePoints(coordinates, mesh.origin)),
    ),
  }))
  return {
    lines: lines.flatMap((segments, index) =>
      joinSegments(segments).map(({ coordinates, closed }) => ({
        levelMm: levels[index] as number,
        points: toSitePoints(coordinates, mesh.origin),
        closed,
      })),
    ),
    bands: bands.filter(({ polygons }) => polygons.length > 0),
  }
}

/** A level's piece in a triangle bounds the band above it on its left, and the one below on its right. */
function marchTriangles(
  mesh: SurfaceMesh,
  levelsMm: readonly number[],
  lines: readonly Segments[],
  outlines: readonly Segments[],
): void {
  const { triangles, valueMm } = mesh
  for (let side = 0; side < triangles.length; side += 3) {
    const nodes = [triangles[side], triangles[side + 1], triangles[side + 2]] as [number, number, number]
    levelsMm.forEach((level, index) => {
      let down = -1
      let up = -1
      for (let corner = 0; corner < 3; corner++) {
        const isAbove = (valueMm[nodes[corner] as number] as number) >= level
        const nextAbove = (valueMm[nodes[(corner + 1) % 3] as number] as number) >= level
        if (isAbove && !nextAbove) down = corner
        if (!isAbove && nextAbove) up = corner
      }
      if (down < 0 || up < 0) return
      const [fe, fn] = crossing(mesh, nodes[down] as number, nodes[(down + 1) % 3] as number, level)
      const [te, tn] = crossing(mesh, nodes[up] as number, nodes[(up + 1) % 3] as number, level)
      lines[index]?.push(fe, fn, te, tn)
      outlines[index + 1]?.push(fe, fn, te, tn)
      outlines[index]?.push(te, tn, fe, fn)
    })
  }
}

/** Shares out the sides at the edge of the mask among the bands that they pass. */
function walkRim(mesh: SurfaceMesh, levelsMm: readonly number[], outlines: readonly Segments[]): void {
  const { rim, valueMm, east, north } = mesh
  const bandOf = (node: number) => {
    const above = levelsMm.findIndex((level) => level > (valueMm[node] as number))
    return above < 0 ? levelsMm.length : above
  }
  for (let index = 0; index < rim.length; index += 2) {
    const from = rim[index] as number
    const to = rim[index + 1] as number
    let band = bandOf(from)
    const last = bandOf(to)
    let [e, n]: readonly [number, number] = [east[from] as number, north[from] as number]
    while (band !== last) {
      const level = levelsMm[band < last ? band : band - 1] as number
      const [te, tn] = crossing(mesh, from, to, level)
      outlines[band]?.push(e, n, te, tn)
      e = te
      n = tn
      band += band < last ? 1 : -1
    }
    outlines[band]?.push(e, n, east[to] as number, north[to] as number)
  }
}

/** Where a side passes a level. The same numbers come out whichever way the side is walked. */
function crossing(
  { east, north, valueMm }: SurfaceMesh,
  one: number,
  other: number,
  level: number,
): readonly [number, number] {
  const a = Math.min(one, other)
  const b = Math.max(one, other)
  const va = valueMm[a] as number
  const vb = valueMm[b] as number
  const share = (level - va) / (vb - va)
  if (share <= 0) return [east[a] as number, north[a] as number]
  if (share >= 1) return [east[b] as number, north[b] as number]
  return [
    (east[a] as number) + share * ((east[b] as number) - (east[a] as number)),
    (north[a] as number) + share * ((north[b] as number) - (north[a] as number)),
  ]
}

/** Outer rings (counter-clockwise) with the holes that lie in them. A ridge at a level encloses nothing: no ring. */
function nestRings(rings: readonly JoinedLine[], nothing: number): readonly (readonly JoinedLine[])[] {
  const measured = rings.map((ring) => ({ ring, area: signedArea(ring.coordinates) }))
  const polygons = measured
    .filter(({ area }) => area > nothing)
    .toSorted((a, b) => a.area - b.area)
    .map(({ ring }) => [ring])
  for (const { ring, area } of measured) {
    if (area >= -nothing) continue
    const [ae, an, be, bn] = ring.coordinates as [number, number, number, number]
    polygons.find(([outer]) => outer && contains(outer.coordinates, (ae + be) / 2, (an + bn) / 2))?.push(ring)
  }
  return polygons
}

function signedArea(coordinates: readonly number[]): number {
  const [oe = 0, on = 0] = coordinates
  let twice = 0
  for (let index = 0; index + 3 < coordinates.length; index += 2)
    twice +=
      ((coordinates[index] as number) - oe) * ((coordinates[index + 3] as number) - on) -
      ((coordinates[index + 2] as number) - oe) * ((coordinates[index + 1] as number) - on)
  return twice / 2
}

function contains(ring: readonly number[], e: number, n: number): boolean {
  let inside = false
  for (let index = 0; index + 3 < ring.length; index += 2) {
    const [ae, an, be, bn] = ring.slice(index, index + 4) as [number, number, number, number]
    if (an > n !== bn > n && e < ae + ((n - an) / (bn - an)) * (be - ae)) inside = !inside
  }
  return inside
}

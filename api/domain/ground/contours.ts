import type { SitePoint } from '../geometry/site-grid.ts'
import { roundTicks } from '../statistics/round-ticks.ts'
import { type JoinedLine, joinPaths, type Path } from './join-paths.ts'
import { crossing, type LevelLine, levelLines } from './level-lines.ts'
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
  const lines = levelLines(mesh, levels)
  // A level's line bounds the band above it on its left, and the one below on its right.
  const outlines: Path[][] = Array.from({ length: levels.length + 1 }, () => [])
  const rings: JoinedLine[][] = outlines.map(() => [])
  lines.forEach((ofLevel, index) => {
    for (const line of ofLevel) {
      if (line.closed && line.atNodes.length === 0) {
        rings[index + 1]?.push(line)
        rings[index]?.push({ coordinates: turnedRound(line.coordinates), closed: true })
        continue
      }
      for (const path of partedAtNodes(line)) {
        outlines[index + 1]?.push(path)
        outlines[index]?.push(turnedRound(path))
      }
    }
  })
  walkRim(mesh, levels, outlines)
  const nothing = 1e-12 * mesh.extentMetres ** 2
  const bands = outlines.map((outline, index) => ({
    lowMm: index === 0 ? lowest : Math.max(lowest, levels[index - 1] as number),
    highMm: Math.min(highest, levels[index] ?? highest),
    polygons: nestRings([...(rings[index] ?? []), ...joinPaths(outline)], nothing).map((polygon) =>
      polygon.map(({ coordinates }) => toSitePoints(coordinates, mesh.origin)),
    ),
  }))
  return {
    lines: lines.flatMap((ofLevel, index) =>
      ofLevel.map(({ coordinates, closed }) => ({
        levelMm: levels[index] as number,
        points: toSitePoints(coordinates, mesh.origin),
        closed,
      })),
    ),
    bands: bands.filter(({ polygons }) => polygons.length > 0),
  }
}

/** A line cut where it may touch others; a closed one begins and ends at such a place. */
function partedAtNodes({ coordinates, closed, atNodes }: LevelLine): readonly Path[] {
  const [first = 0] = atNodes
  const [last = 0] = atNodes.slice(-1)
  const cut = atNodes.slice(1).map((to, at) => coordinates.slice(atNodes[at], to + 2))
  if (atNodes.length === 0) return [coordinates]
  const [before, after] = [coordinates.slice(0, first + 2), coordinates.slice(last)]
  const around = closed ? [[...after, ...before.slice(2)]] : [before, after]
  return [...around, ...cut].filter((path) => path.length > 2)
}

function turnedRound(coordinates: Path): Path {
  const turned: number[] = []
  for (let at = coordinates.length - 2; at >= 0; at -= 2)
    turned.push(coordinates[at] as number, coordinates[at + 1] as number)
  return turned
}

/** Shares out the sides at the edge of the mask among the bands that they pass. */
function walkRim(mesh: SurfaceMesh, levelsMm: readonly number[], outlines: readonly Path[][]): void {
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
      outlines[band]?.push([e, n, te, tn])
      e = te
      n = tn
      band += band < last ? 1 : -1
    }
    outlines[band]?.push([e, n, east[to] as number, north[to] as number])
  }
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
    const an = ring[index + 1] as number
    const bn = ring[index + 3] as number
    if (an > n === bn > n) continue
    const ae = ring[index] as number
    if (e < ae + ((n - an) / (bn - an)) * ((ring[index + 2] as number) - ae)) inside = !inside
  }
  return inside
}

import type { SitePoint } from './site-grid.ts'

/** Where a point lies beside a line of straight pieces. */
export interface Station {
  /** Distance along the line to the nearest point of it, plus the chainage of its start. */
  readonly chainageMetres: number
  /** Right of travel positive. At a bend, the distance to the corner, on its outer side. */
  readonly offsetMetres: number
  /** Distance to the line; more than |offset| only where the line is extended beyond its ends. */
  readonly distanceMetres: number
  /** Index of the straight piece, 0 for the first. */
  readonly segment: number
  /** Beyond the first or last point of the line. */
  readonly beyond: 'start' | 'end' | null
}

export interface StationOptions {
  readonly startChainageMetres?: number
  /** Run the first and last piece on beyond their ends, instead of stopping there. */
  readonly extended?: boolean
}

/**
 * Chainage and offset of a point beside a line with bends. Where two places of the line are equally near,
 * the lower chainage counts. Null for a line without length.
 */
export function stationOf(
  line: readonly SitePoint[],
  point: SitePoint,
  { startChainageMetres = 0, extended = false }: StationOptions = {},
): Station | null {
  const pieces = piecesOf(line)
  let best: (Station & { readonly away: number }) | null = null
  for (const [index, piece] of pieces.entries()) {
    const relativeE = point[0] - piece.from[0]
    const relativeN = point[1] - piece.from[1]
    const along = relativeE * piece.unit[0] + relativeN * piece.unit[1]
    const right = relativeE * piece.unit[1] - relativeN * piece.unit[0]
    const isFirst = index === 0
    const isLast = index === pieces.length - 1
    const beyond = along < 0 && isFirst ? 'start' : along > piece.length && isLast ? 'end' : null
    const held = Math.min(Math.max(along, 0), piece.length)
    const distance = Math.hypot(along - held, right)
    const runOn = extended && beyond !== null
    const away = runOn ? Math.abs(right) : distance
    if (best && away >= best.away - 1e-12 * (1 + best.away)) continue
    best = {
      chainageMetres: startChainageMetres + piece.start + (runOn ? along : held),
      offsetMetres: runOn || held === along ? right : distance * sideAtCorner(pieces, index, held, right),
      distanceMetres: distance,
      segment: piece.index,
      beyond,
      away,
    }
  }
  if (!best) return null
  const { away: _, ...station } = best
  return station
}

/** The point at a chainage and offset (right positive); beyond the ends, the line is run on. Null without length. */
export function pointAtChainage(
  line: readonly SitePoint[],
  chainageMetres: number,
  { offsetMetres = 0, startChainageMetres = 0 } = {},
): SitePoint | null {
  const along = chainageMetres - startChainageMetres
  const pieces = piecesOf(line)
  const piece = pieces.findLast(({ start }) => start <= along) ?? pieces[0]
  if (!piece) return null
  const onPiece = along - piece.start
  return [
    piece.from[0] + onPiece * piece.unit[0] + offsetMetres * piece.unit[1],
    piece.from[1] + onPiece * piece.unit[1] - offsetMetres * piece.unit[0],
  ]
}

/** Length along a line, metres. */
export function lengthOfLine(line: readonly SitePoint[]): number {
  return piecesOf(line).reduce((sum, { length }) => sum + length, 0)
}

interface Piece {
  readonly index: number
  readonly from: SitePoint
  readonly unit: readonly [number, number]
  readonly start: number
  readonly length: number
}

/** Straight pieces with length; a point given twice makes none. */
function piecesOf(line: readonly SitePoint[]): readonly Piece[] {
  const pieces: Piece[] = []
  let start = 0
  for (let index = 0; index + 1 < line.length; index++) {
    const from = line[index] as SitePoint
    const to = line[index + 1] as SitePoint
    const length = Math.hypot(to[0] - from[0], to[1] - from[1])
    if (length === 0) continue
    pieces.push({
      index,
      from,
      unit: [(to[0] - from[0]) / length, (to[1] - from[1]) / length],
      start,
      length,
    })
    start += length
  }
  return pieces
}

/** +1 right, -1 left. Only the outer side of a bend is nearest to its corner, however sharp the bend. */
function sideAtCorner(pieces: readonly Piece[], index: number, held: number, right: number): number {
  const before = pieces[held === 0 ? index - 1 : index]
  const after = pieces[held === 0 ? index : index + 1]
  const turnLeft = before && after ? before.unit[0] * after.unit[1] - before.unit[1] * after.unit[0] : 0
  return Math.sign(turnLeft) || Math.sign(right) || 1
}

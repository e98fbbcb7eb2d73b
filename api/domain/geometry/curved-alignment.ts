import type { Station } from './alignment.ts'
import type { SitePoint } from './site-grid.ts'

/** A straight or a circular arc of an alignment, as setting-out tables have it. */
export interface AlignmentElement {
  readonly startChainageMetres: number
  readonly startEastingMetres: number
  readonly startNorthingMetres: number
  /** Of the direction of travel at its start, from grid north, clockwise. */
  readonly startBearingDegrees: number
  readonly lengthMetres: number
  /** Null for a straight. */
  readonly radiusMetres: number | null
  /** Side towards which an arc turns; null for a straight. */
  readonly hand: 'left' | 'right' | null
}

/**
 * Chainage and offset (right of travel positive) of a point beside an alignment of straights and arcs that touch one
 * another. Where two places are equally near, the lower chainage counts. Beyond the ends it is held there, or,
 * `extended`, run on straight along the tangent. Null for an alignment without elements.
 */
export function stationOnAlignment(
  elements: readonly AlignmentElement[],
  point: SitePoint,
  { extended = false } = {},
): Station | null {
  let best: (Station & { readonly away: number }) | null = null
  for (const [segment, element] of elements.entries()) {
    const length = element.lengthMetres
    const along = footOn(element, point)
    const beyond =
      along < 0 && segment === 0 ? 'start' : along > length && segment === elements.length - 1 ? 'end' : null
    const held = Math.min(Math.max(along, 0), length)
    const [easting, northing] = pointOnElement(element, held)
    const bearing = bearingOn(element, held)
    const [e, n] = [point[0] - easting, point[1] - northing]
    const right = e * Math.cos(bearing) - n * Math.sin(bearing)
    const onward = e * Math.sin(bearing) + n * Math.cos(bearing)
    const distance = Math.hypot(e, n)
    const runOn = extended && beyond !== null
    const away = runOn ? Math.abs(right) : distance
    if (best && away >= best.away - 1e-9) continue
    best = {
      chainageMetres: element.startChainageMetres + held + (runOn ? onward : 0),
      offsetMetres: runOn ? right : distance * (Math.sign(right) || 1),
      distanceMetres: distance,
      segment,
      beyond,
      away,
    }
  }
  if (!best) return null
  const { away: _, ...station } = best
  return station
}

/** The point at a chainage and offset, right positive; beyond the ends, straight on. Null without elements. */
export function pointOnAlignment(
  elements: readonly AlignmentElement[],
  chainageMetres: number,
  offsetMetres = 0,
): SitePoint | null {
  const element = elements.findLast((one) => one.startChainageMetres <= chainageMetres) ?? elements[0]
  if (!element) return null
  const along = chainageMetres - element.startChainageMetres
  const held = Math.min(Math.max(along, 0), element.lengthMetres)
  const [easting, northing] = pointOnElement(element, held)
  const bearing = bearingOn(element, held)
  const onward = along - held
  return [
    easting + onward * Math.sin(bearing) + offsetMetres * Math.cos(bearing),
    northing + onward * Math.cos(bearing) - offsetMetres * Math.sin(bearing),
  ]
}

/** Bearing of travel at a distance along an element, degrees, from 0 up to 360. */
export function bearingAlong(element: AlignmentElement, alongMetres: number): number {
  const degrees = ((bearingOn(element, alongMetres) * 180) / Math.PI) % 360
  return degrees < 0 ? degrees + 360 : degrees
}

/** Corners close enough that no arc is further than `sagMetres` from its chord. */
export function cornersOfAlignment(
  elements: readonly AlignmentElement[],
  sagMetres = 0.01,
): readonly SitePoint[] {
  const corners: SitePoint[] = []
  for (const element of elements) {
    const radius = element.radiusMetres
    const longest = radius === null ? Number.POSITIVE_INFINITY : Math.sqrt(8 * radius * sagMetres)
    const pieces = Math.max(1, Math.ceil(element.lengthMetres / longest))
    for (let piece = corners.length === 0 ? 0 : 1; piece <= pieces; piece++)
      corners.push(pointOnElement(element, (element.lengthMetres * piece) / pieces))
  }
  return corners
}

/** The point at a distance along an element. */
export function pointOnElement(element: AlignmentElement, alongMetres: number): SitePoint {
  const { startEastingMetres: e, startNorthingMetres: n } = element
  const start = bearingOn(element, 0)
  const turn = turnOf(element)
  if (turn === 0) return [e + alongMetres * Math.sin(start), n + alongMetres * Math.cos(start)]
  const half = (alongMetres * turn) / 2
  // The chord stands at half the angle turned; its length is 2 sin(half)/turn.
  const chord = (2 * Math.sin(half)) / turn
  return [e + chord * Math.sin(start + half), n + chord * Math.cos(start + half)]
}

/** Turn per metre, radians, right positive; 0 for a straight. */
const turnOf = ({ radiusMetres, hand }: AlignmentElement): number =>
  radiusMetres === null ? 0 : (hand === 'left' ? -1 : 1) / radiusMetres

const bearingOn = (element: AlignmentElement, along: number): number =>
  (element.startBearingDegrees * Math.PI) / 180 + along * turnOf(element)

/** Distance along an element, run on beyond its ends, to the foot of a point; 0 at the centre of an arc. */
function footOn(element: AlignmentElement, point: SitePoint): number {
  const start = bearingOn(element, 0)
  const e = point[0] - element.startEastingMetres
  const n = point[1] - element.startNorthingMetres
  const right = e * Math.cos(start) - n * Math.sin(start)
  const onward = e * Math.sin(start) + n * Math.cos(start)
  const { radiusMetres: radius, hand } = element
  if (radius === null) return onward
  const along = radius * Math.atan2(onward, radius - (hand === 'left' ? -right : right))
  const around = 2 * Math.PI * radius
  // The turn of the circle that lies nearest to the middle of the arc, so that before its start is negative.
  return along - around * Math.round((along - element.lengthMetres / 2) / around)
}

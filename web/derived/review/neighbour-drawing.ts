import type { LngLat, SitePoint } from '#domain/geometry/site-grid.ts'
import type { Place } from '#domain/review/case/places-of.ts'
import { readableDecimals } from '../../ui/format-value.ts'
import { type NeighbourKind, neighbourSigns } from './neighbour-words.ts'
import { kindOf, type NeighboursFound, type ResidualsFound } from './neighbours-found.ts'

type Position = [longitude: number, latitude: number]

/** A neighbour's plate: its shape, and its change with sign. */
export interface NeighbourPlate {
  readonly at: Position
  readonly kind: NeighbourKind
  readonly text: string
  /** Only its shape, where there is no room for the rest. */
  readonly sign: string
}

/** How far a reading lies from what all others say, in standard errors; above 0 it reads more. */
export interface ResidualMark {
  readonly at: Position
  readonly standardised: number
  /** Only where it is beyond two standard errors: else empty. */
  readonly text: string
}

/** Neighbours of a series reviewed as the plan draws them. */
export interface NeighbourDrawing {
  readonly lines: readonly { readonly path: readonly Position[]; readonly kind: NeighbourKind }[]
  readonly plates: readonly NeighbourPlate[]
  readonly residuals: readonly ResidualMark[]
}

/** Places by the names of points and of instruments; what has no place is drawn nowhere, and stands in the table. */
export function neighbourDrawing(
  found: NeighboursFound,
  residuals: ResidualsFound | null,
  places: ReadonlyMap<string, Place>,
  toLngLat: (point: SitePoint) => LngLat,
): NeighbourDrawing {
  const at = (point: string): Position | null => {
    const place = places.get(point)
    if (!place) return null
    const [longitude, latitude] = toLngLat([place.eastingMetres, place.northingMetres])
    return [longitude, latitude]
  }
  const own = at(found.point)
  const all = [
    ...found.agreements.map(({ neighbour, kind, change }) => ({
      point: neighbour.point,
      kind: kindOf(found, neighbour.series, kind),
      change:
        change === null || kind === 'silent' || kind === 'both-still'
          ? ''
          : signedText(change.size, readableDecimals(6, (change.high - change.low) / 4)),
    })),
    ...found.unread.map(({ series }) => ({
      point: series.point,
      kind: kindOf(found, series.id, 'silent'),
      change: '',
    })),
    ...found.parted.map(({ series }) => ({ point: series.point, kind: 'parted' as const, change: '' })),
  ].flatMap((one) => {
    const place = at(one.point)
    return place ? [{ ...one, place }] : []
  })
  // Tips of one hole stand at one place: their signs stand beside each other on one plate, one a point.
  const plates = new Map<string, NeighbourPlate>()
  const seen = new Set<string>()
  for (const { point, kind, change, place } of all) {
    if (seen.has(point)) continue
    seen.add(point)
    const key = place.map((degrees) => degrees.toFixed(6)).join()
    const before = plates.get(key)
    const { sign } = neighbourSigns[kind]
    const text = `${sign}${change === '' ? '' : ` ${change}`}`
    plates.set(
      key,
      before
        ? {
            ...before,
            kind: moreNotable(before.kind, kind),
            sign: `${before.sign} ${sign}`,
            text: `${before.text}  ${text}`,
          }
        : { at: place, kind, sign, text },
    )
  }
  return {
    lines: own
      ? [...plates.values()].flatMap(({ at: to, kind }) =>
          piecesOf(own, to, neighbourSigns[kind].line).map((path) => ({ path, kind })),
        )
      : [],
    plates: [...plates.values()],
    residuals: (residuals?.ok ? residuals.residuals.points : []).flatMap(({ ids, standardised }) => {
      const place = at(ids[0] ?? '')
      return place
        ? [
            {
              at: place,
              standardised,
              text: Math.abs(standardised) >= 2 ? signedText(standardised, 1) : '',
            },
          ]
        : []
    }),
  }
}

/** Of two at one place the one that a person should see: what moves otherwise before what moves with it, what is told before what is not. */
const moreNotable = (one: NeighbourKind, other: NeighbourKind): NeighbourKind =>
  notable.indexOf(other) < notable.indexOf(one) ? other : one

const notable: readonly NeighbourKind[] = [
  'moves-otherwise',
  'moves-with',
  'still',
  'both-still',
  'cannot-say',
  'silent',
  'out-of-use',
  'parted',
]

const signedText = (value: number, decimals: number): string => {
  const text = Math.abs(value).toFixed(decimals)
  return Number(text) === 0 ? text : `${value < 0 ? '−' : '+'}${text}`
}

/** A straight line whole, in dashes, in dots, or only its beginnings at both ends. */
function piecesOf(
  from: Position,
  to: Position,
  line: 'whole' | 'dashes' | 'dots' | 'stub',
): readonly Position[][] {
  const between = (share: number): Position => [
    from[0] + share * (to[0] - from[0]),
    from[1] + share * (to[1] - from[1]),
  ]
  const even = (count: number, filled: number) =>
    Array.from({ length: count }, (_, place) => [between(place / count), between((place + filled) / count)])
  if (from[0] === to[0] && from[1] === to[1]) return []
  return {
    whole: [[from, to]],
    dashes: even(9, 0.6),
    dots: even(21, 0.3),
    stub: [
      [between(0.6), between(0.7)],
      [between(0.8), between(0.9)],
    ],
  }[line]
}

/** Radius of the circle of a residual, pixels: hidden by the symbol while it is below half a standard error, and up to five of them larger. */
export const residualRadiusPixels = (standardised: number, sizePixels: number): number =>
  sizePixels * (0.36 + 0.2 * Math.min(5, Math.abs(standardised)))

interface Box {
  readonly left: number
  readonly right: number
  readonly y: number
}

/** Plates with their figures where these lie over no other plate's shape and no earlier figures at a scale; else the shape alone. */
export function roomyPlates(
  plates: readonly NeighbourPlate[],
  metresPerPixel: number,
): readonly NeighbourPlate[] {
  const boxOf = ({ at: [longitude, latitude] }: NeighbourPlate, text: string): Box => {
    const left = (longitude * 111_320 * Math.cos((latitude * Math.PI) / 180)) / metresPerPixel
    return { left, right: left + 12 + 9 * text.length, y: (latitude * 111_320) / metresPerPixel }
  }
  const shapes = plates.map((plate) => boxOf(plate, plate.sign))
  const kept: Box[] = []
  return plates.map((plate, place) => {
    const box = boxOf(plate, plate.text)
    const isFree = [...shapes.filter((_, other) => other !== place), ...kept].every(
      (one) => Math.abs(one.y - box.y) > 20 || box.right <= one.left || one.right <= box.left,
    )
    if (isFree) kept.push(box)
    return isFree ? plate : { ...plate, text: plate.sign }
  })
}

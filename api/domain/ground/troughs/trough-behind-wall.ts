import { accept, type Outcome, reject } from '../../outcome.ts'

/** Level of an inclinometer reading in a wall and the movement there, into the excavation positive. */
export interface WallReading {
  readonly depthMetres: number
  readonly inwardMm: number
}

export interface TroughBehindWall {
  /** Whole sentence. */
  readonly method: string
  readonly greatestDeflectionMm: number
  readonly greatestDeflectionDepthMetres: number
  /** Bounds of the greatest settlement behind the wall. */
  readonly greatestSettlementMm: readonly [least: number, most: number]
  /** Share of the greatest settlement, 0 to 1, at distances behind the wall; straight between them, 0 beyond. */
  readonly shape: readonly { readonly distanceMetres: number; readonly share: number }[]
}

/** Distance over excavation depth, share of the greatest settlement (Hsieh and Ou 1998, concave type; from memory). */
const concaveShape = [
  [0, 0.5],
  [0.5, 1],
  [2, 0.1],
  [4, 0],
] as const

/**
 * Concave settlement behind a propped wall, from its deflection: greatest settlement 0.5 to 1 times the greatest
 * deflection, half an excavation depth behind the wall. Refused where the wall moves most at its top: such a wall
 * has a trough of another shape, steepest beside it.
 */
export function troughBehindWall(
  readings: readonly WallReading[],
  excavationDepthMetres: number,
): Outcome<TroughBehindWall> {
  const wall = readings
    .filter(({ depthMetres, inwardMm }) => Number.isFinite(depthMetres) && Number.isFinite(inwardMm))
    .toSorted((one, other) => one.depthMetres - other.depthMetres)
  const [top] = wall
  if (!top || wall.length < 3 || !(excavationDepthMetres > 0))
    return reject({
      code: 'wall-undetermined',
      message:
        'Settlement behind a wall needs an excavation depth above 0 and its deflection at three depths or more.',
    })
  const most = wall.reduce((one, other) => (other.inwardMm > one.inwardMm ? other : one), top)
  if (most === top || most.inwardMm <= 0)
    return reject({
      code: 'wall-not-concave',
      message:
        'The wall moves most at its top or not inwards, so the concave trough does not hold behind it. Use the settlement points.',
    })
  return accept({
    method:
      'Concave trough behind a propped wall (Hsieh and Ou 1998), its greatest settlement 0.5 to 1 times the greatest deflection of the wall.',
    greatestDeflectionMm: most.inwardMm,
    greatestDeflectionDepthMetres: most.depthMetres,
    greatestSettlementMm: [0.5 * most.inwardMm, most.inwardMm],
    shape: concaveShape.map(([ratio, share]) => ({ distanceMetres: ratio * excavationDepthMetres, share })),
  })
}

/** Share of the greatest settlement at a distance behind the wall; 0 in front of it. */
export function shareBehindWall({ shape }: TroughBehindWall, distanceMetres: number): number {
  if (distanceMetres < 0) return 0
  const place = shape.findIndex((one) => one.distanceMetres > distanceMetres)
  const [from, to] = [shape[place - 1], shape[place]]
  if (!from || !to) return 0
  const along = (distanceMetres - from.distanceMetres) / (to.distanceMetres - from.distanceMetres)
  return from.share + along * (to.share - from.share)
}

import { accept, type Outcome, reject } from '../../outcome.ts'
import { type Analysis, given, reasonWithoutValue, sortOut } from '../analysis.ts'

/** Level of an inclinometer reading in a wall and the movement there, into the excavation positive. */
export interface WallReading {
  readonly depthMetres: number
  readonly inwardMm: number
}

/** A settlement point behind a wall. */
export interface PointBehindWall {
  readonly id: string
  /** From the wall, away from the excavation. */
  readonly distanceMetres: number
  /** Positive downwards; null: no value known. */
  readonly settlementMm: number | null
  readonly standardUncertaintyMm: number | null
  readonly late: boolean
}

export interface TroughBehindWall extends Analysis<WallReading | PointBehindWall> {
  readonly wall: readonly WallReading[]
  readonly points: readonly (PointBehindWall & { readonly settlementMm: number })[]
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
 * has a trough of another shape, steepest beside it. Points behind the wall are set beside the bounds.
 */
export function troughBehindWall(
  readings: readonly WallReading[],
  excavationDepthMetres: number,
  behind: readonly PointBehindWall[] = [],
): Outcome<TroughBehindWall> {
  const sorted = sortOut(readings, ({ depthMetres, inwardMm }) =>
    Number.isFinite(depthMetres) && Number.isFinite(inwardMm) ? null : 'Its depth or its value is not known.',
  )
  const beside = sortOut<PointBehindWall, PointBehindWall & { readonly settlementMm: number }>(
    behind,
    reasonToLeaveOut,
  )
  const wall = sorted.used.toSorted((one, other) => one.depthMetres - other.depthMetres)
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
  const shape = concaveShape.map(([ratio, share]) => ({
    distanceMetres: ratio * excavationDepthMetres,
    share,
  }))
  const over = beside.used.filter(
    ({ distanceMetres, settlementMm }) => settlementMm > most.inwardMm * shareAlong(shape, distanceMetres),
  )
  return accept({
    method:
      'Concave trough behind a propped wall (Hsieh and Ou 1998, from memory), its greatest settlement 0.5 to 1 times the greatest deflection of the wall.',
    parameters: [given('depth of the excavation', excavationDepthMetres, 'm')],
    found: [
      given('greatest deflection of the wall', most.inwardMm, 'mm'),
      given('its depth', most.depthMetres, 'm'),
      given('greatest settlement, at least', 0.5 * most.inwardMm, 'mm'),
      given('greatest settlement, at most', most.inwardMm, 'mm'),
    ],
    used: [...wall, ...beside.used],
    leftOut: [...sorted.leftOut, ...beside.leftOut],
    remarks: [
      'The bounds are of propped walls in clay and of walls with common workmanship; leaking joints, dewatering and making the wall settle the ground too and are not in them.',
      ...(over.length > 0
        ? [
            `${over.map(({ id }) => id).join(', ')} settled more than the upper bound: something beside the deflection of the wall moves the ground there.`,
          ]
        : []),
    ],
    wall,
    points: beside.used,
    greatestDeflectionMm: most.inwardMm,
    greatestDeflectionDepthMetres: most.depthMetres,
    greatestSettlementMm: [0.5 * most.inwardMm, most.inwardMm],
    shape,
  })
}

/** Share of the greatest settlement at a distance behind the wall; 0 in front of it. */
export const shareBehindWall = ({ shape }: TroughBehindWall, distanceMetres: number): number =>
  shareAlong(shape, distanceMetres)

function shareAlong(shape: TroughBehindWall['shape'], distanceMetres: number): number {
  if (distanceMetres < 0) return 0
  const place = shape.findIndex((one) => one.distanceMetres > distanceMetres)
  const [from, to] = [shape[place - 1], shape[place]]
  if (!from || !to) return 0
  const along = (distanceMetres - from.distanceMetres) / (to.distanceMetres - from.distanceMetres)
  return from.share + along * (to.share - from.share)
}

function reasonToLeaveOut({ distanceMetres, settlementMm, late }: PointBehindWall): string | null {
  if (!(distanceMetres >= 0)) return 'It does not stand behind the wall.'
  return reasonWithoutValue(settlementMm, late)
}

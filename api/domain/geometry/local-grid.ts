import { accept, type Outcome, reject } from '../outcome.ts'
import { type PlaneTransform, transformPlane } from './plane-transform.ts'

/** A point whose place is known on the local grid and in the CRS, both in metres: easting, northing. */
export interface ControlPair {
  readonly id: string
  readonly local: readonly [number, number]
  readonly crs: readonly [number, number]
}

/** A local grid tied to a CRS by control points. */
export interface LocalGridFit {
  /** From the local grid to the CRS. */
  readonly toCrs: PlaneTransform
  /** CRS metres per local metre; 1 where it was held. */
  readonly scale: number
  /** Turn from the local grid to the CRS, counter-clockwise positive, degrees, −180 to 180. */
  readonly rotationDegrees: number
  readonly scaleHeld: boolean
  /** Computed minus given, CRS metres, in the order of the points. */
  readonly residuals: readonly {
    readonly id: string
    readonly eastMetres: number
    readonly northMetres: number
    readonly lengthMetres: number
  }[]
  /** √(Σv² / redundancy), metres; null where nothing is left over to check by. */
  readonly standardErrorMetres: number | null
  /** Observed coordinates less unknowns: 2n − 4, or 2n − 3 with the scale held. */
  readonly redundancy: number
}

/**
 * Similarity of the plane by least squares, from two control points or more, on data centred on their means (so
 * that large coordinates cost no digits). Equal weights; residuals are computed minus given.
 */
export function fitLocalGrid(points: readonly ControlPair[], scaleHeld = false): Outcome<LocalGridFit> {
  const count = points.length
  if (count < 2)
    return reject({
      code: 'control-too-few',
      value: String(count),
      expected: 'two control points or more; three or more for a check',
      message:
        'One control point cannot turn a grid. Give two or more, far apart; three or more give a check.',
    })
  const mean = (of: (point: ControlPair) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / count
  const localE = mean(({ local }) => local[0])
  const localN = mean(({ local }) => local[1])
  const crsE = mean(({ crs }) => crs[0])
  const crsN = mean(({ crs }) => crs[1])
  let along = 0
  let across = 0
  let spread = 0
  for (const { local, crs } of points) {
    const [x, y] = [local[0] - localE, local[1] - localN]
    const [e, n] = [crs[0] - crsE, crs[1] - crsN]
    along += x * e + y * n
    across += x * n - y * e
    spread += x * x + y * y
  }
  const reach = Math.hypot(along, across)
  if (!(spread > 1) || !(reach > 0))
    return reject({
      code: 'control-in-one-place',
      expected: 'control points at least a metre apart',
      message:
        'The control points lie in one place, so they do not say how the grid is turned. Give points far apart.',
    })
  const divisor = scaleHeld ? reach : spread
  const [a, b] = [along / divisor, across / divisor]
  const toCrs = {
    a0: crsE - a * localE + b * localN,
    a1: a,
    a2: -b,
    b0: crsN - b * localE - a * localN,
    b1: b,
    b2: a,
  }
  const residuals = points.map(({ id, local, crs }) => {
    const [e, n] = transformPlane(toCrs, local)
    const [eastMetres, northMetres] = [e - crs[0], n - crs[1]]
    return { id, eastMetres, northMetres, lengthMetres: Math.hypot(eastMetres, northMetres) }
  })
  const redundancy = 2 * count - (scaleHeld ? 3 : 4)
  const sum = residuals.reduce((total, { lengthMetres }) => total + lengthMetres ** 2, 0)
  return accept({
    toCrs,
    scale: scaleHeld ? 1 : Math.hypot(a, b),
    rotationDegrees: (Math.atan2(b, a) * 180) / Math.PI,
    scaleHeld,
    residuals,
    standardErrorMetres: redundancy > 0 ? Math.sqrt(sum / redundancy) : null,
    redundancy,
  })
}

/** Bearing of the positive A axis from grid north, clockwise, and on which side of it the positive B axis lies. */
export interface InclinometerAxes {
  readonly bearingDegrees: number
  /** Seen from above. */
  readonly positiveB: 'clockwise' | 'counter-clockwise'
}

/** What one unit along A and along B is to the east and to the north. */
export interface AxisShares {
  readonly aEast: number
  readonly aNorth: number
  readonly bEast: number
  readonly bNorth: number
}

/** Shares of a pair of axes; exactly 0 and ±1 where an axis points along the grid. */
export function axisShares({ bearingDegrees, positiveB }: InclinometerAxes): AxisShares {
  const bearingOfB = bearingDegrees + (positiveB === 'clockwise' ? 90 : -90)
  return {
    aEast: sineOfDegrees(bearingDegrees),
    aNorth: sineOfDegrees(bearingDegrees + 90),
    bEast: sineOfDegrees(bearingOfB),
    bNorth: sineOfDegrees(bearingOfB + 90),
  }
}

export interface EastNorth {
  readonly east: number
  readonly north: number
}

/** Movement along A and B as movement to the east and north, in the same unit. */
export function toEastNorth(a: number, b: number, axes: InclinometerAxes): EastNorth {
  const { aEast, aNorth, bEast, bNorth } = axisShares(axes)
  return { east: a * aEast + b * bEast, north: a * aNorth + b * bNorth }
}

/** The reverse of `toEastNorth`: the axes stand at right angles, so the same shares serve. */
export function toAxes({ east, north }: EastNorth, axes: InclinometerAxes): { a: number; b: number } {
  const { aEast, aNorth, bEast, bNorth } = axisShares(axes)
  return { a: east * aEast + north * aNorth, b: east * bEast + north * bNorth }
}

/** Length of a movement and the bearing it goes to, clockwise from north, 0 to 360; bearing NaN of no movement. */
export function resultantMovement({ east, north }: EastNorth): { length: number; bearingDegrees: number } {
  const length = Math.hypot(east, north)
  const bearing = (Math.atan2(east, north) * 180) / Math.PI
  return { length, bearingDegrees: length === 0 ? Number.NaN : (bearing + 360) % 360 }
}

/** sin with no rounding of π at whole quarters. */
function sineOfDegrees(degrees: number): number {
  const quarter = (((degrees % 360) + 360) % 360) / 90
  if (Number.isInteger(quarter)) return [0, 1, 0, -1][quarter % 4] ?? 0
  return Math.sin((degrees * Math.PI) / 180)
}

/** A station of a hole's deviation survey. */
export interface HoleStation {
  /** Distance along the hole from its collar. */
  readonly depthMetres: number
  /** From grid north, clockwise; without meaning where the hole is vertical. */
  readonly azimuthDegrees: number
  /** Below horizontal, as in locations.csv: 90 is straight down. Inclination from the vertical is 90 less it. */
  readonly dipDegrees: number
}

/** Metres east, north and down. */
export type Displacement = readonly [eastMetres: number, northMetres: number, downMetres: number]

/** How the piece of a hole between two stations is taken to run. */
export type CourseMethod = 'minimum-curvature' | 'balanced-tangential' | 'tangential'

/**
 * From one station to the next. By minimum curvature, the course is an arc that touches both directions; it is the
 * one that is used. Balanced tangential goes half along each direction, tangential wholly along the lower one:
 * how far they end elsewhere says how much the survey leaves open.
 */
export function courseBetween(
  from: HoleStation,
  to: HoleStation,
  method: CourseMethod = 'minimum-curvature',
): Displacement {
  const length = to.depthMetres - from.depthMetres
  const [before, after] = [directionAt(from), directionAt(to)]
  if (method === 'tangential') return scaled(after, length)
  const half = (length / 2) * (method === 'minimum-curvature' ? ratioFactor(doglegRadians(from, to)) : 1)
  return [half * (before[0] + after[0]), half * (before[1] + after[1]), half * (before[2] + after[2])]
}

/** Angle between the directions of two stations, radians, 0 to π. Taken so that small ones keep their digits. */
export function doglegRadians(from: HoleStation, to: HoleStation): number {
  const [a, b] = [directionAt(from), directionAt(to)]
  const across = Math.hypot(a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
  return Math.atan2(across, a[0] * b[0] + a[1] * b[1] + a[2] * b[2])
}

/** (2/δ)·tan(δ/2), 1 for a straight course. A dogleg of half a turn has none: Infinity. */
export function ratioFactor(dogleg: number): number {
  // The next term of the series is δ⁴/120: below the last digit here.
  return dogleg < 1e-4 ? 1 + dogleg ** 2 / 12 : Math.tan(dogleg / 2) / (dogleg / 2)
}

/** The direction at a share (0 to 1) of the arc between two stations. */
export function directionAlong(from: HoleStation, to: HoleStation, share: number): Displacement {
  const dogleg = doglegRadians(from, to)
  const [a, b] = [directionAt(from), directionAt(to)]
  const mix =
    dogleg < 1e-9
      ? [1 - share, share]
      : [Math.sin((1 - share) * dogleg) / Math.sin(dogleg), Math.sin(share * dogleg) / Math.sin(dogleg)]
  const [u = 0, v = 0] = mix
  return [u * a[0] + v * b[0], u * a[1] + v * b[1], u * a[2] + v * b[2]]
}

/** Unit direction of a station. */
export function directionAt({ azimuthDegrees, dipDegrees }: Omit<HoleStation, 'depthMetres'>): Displacement {
  const azimuth = (azimuthDegrees * Math.PI) / 180
  const dip = (dipDegrees * Math.PI) / 180
  const level = Math.cos(dip)
  return [level * Math.sin(azimuth), level * Math.cos(azimuth), Math.sin(dip)]
}

export const scaled = (by: Displacement, length: number): Displacement => [
  by[0] * length,
  by[1] * length,
  by[2] * length,
]

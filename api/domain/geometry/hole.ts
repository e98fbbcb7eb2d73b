import {
  type CourseMethod,
  courseBetween,
  type Displacement,
  directionAlong,
  directionAt,
  doglegRadians,
  type HoleStation,
  ratioFactor,
  scaled,
} from './hole-course.ts'

/** A hole or surface point as surveyed: collar, direction and length. A row of the locations table fits. */
export interface Hole {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly collarLevelMetres: number
  /** From grid north, clockwise. */
  readonly azimuthDegrees: number
  /** Below horizontal; 90 is straight down, negative points up. */
  readonly dipDegrees: number
  /** Stations of its deviation survey by growing depth; without any, the hole is taken to be straight. */
  readonly survey?: readonly HoleStation[]
}

export interface SitePosition {
  readonly eastingMetres: number
  readonly northingMetres: number
  /** On the site's vertical datum, up positive. */
  readonly levelMetres: number
}

/**
 * Position at a distance along a hole from its collar, in metres on the site grid. Where the hole was surveyed, by
 * minimum curvature from station to station (the collar's azimuth and dip stand for a station at 0 that was not
 * taken; below the last one the hole runs straight on); else straight. Grid and ground metres are taken as equal.
 */
export function positionAtDepth(hole: Hole, depthMetres: number): SitePosition {
  const [east, north, down] = displacementAt(hole, depthMetres)
  return {
    eastingMetres: hole.eastingMetres + east,
    northingMetres: hole.northingMetres + north,
    levelMetres: hole.collarLevelMetres - down,
  }
}

/** Stations with the collar as the first: what the hole is reckoned from. */
export function stationsOf(hole: Hole): readonly HoleStation[] {
  const survey = hole.survey ?? []
  const first = survey[0]
  const collar = { depthMetres: 0, azimuthDegrees: hole.azimuthDegrees, dipDegrees: hole.dipDegrees }
  return first && first.depthMetres <= 0 ? survey : [collar, ...survey]
}

/** From the collar to a depth by another method than the one used, east, north and down; only at stations. */
export function displacementBy(stations: readonly HoleStation[], method: CourseMethod): Displacement {
  let sum: Displacement = [0, 0, 0]
  for (let place = 1; place < stations.length; place++)
    sum = plus(sum, courseBetween(stations[place - 1] as HoleStation, stations[place] as HoleStation, method))
  return sum
}

function displacementAt(hole: Hole, depthMetres: number): Displacement {
  const stations = stationsOf(hole)
  const reached = Math.max(
    stations.findLastIndex((station) => station.depthMetres <= depthMetres),
    0,
  )
  const from = stations[reached] as HoleStation
  const to = stations[reached + 1]
  const above = displacementBy(stations.slice(0, reached + 1), 'minimum-curvature')
  const length = depthMetres - from.depthMetres
  if (!to || length <= 0) return plus(above, scaled(directionAt(from), length))
  const share = length / (to.depthMetres - from.depthMetres)
  const half = (length / 2) * ratioFactor(share * doglegRadians(from, to))
  return plus(above, plus(scaled(directionAt(from), half), scaled(directionAlong(from, to, share), half)))
}

const plus = (a: Displacement, b: Displacement): Displacement => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]

/** Distance along a straight hole at which it reaches a level; null where a level hole never does. */
export function depthAtLevel(hole: Hole, levelMetres: number): number | null {
  const fall = Math.sin((hole.dipDegrees * Math.PI) / 180)
  return Math.abs(fall) < 1e-12 ? null : (hole.collarLevelMetres - levelMetres) / fall
}

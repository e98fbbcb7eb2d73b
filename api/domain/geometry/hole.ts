/** A hole or surface point as surveyed: collar, direction and length. A row of the locations table fits. */
export interface Hole {
  readonly eastingMetres: number
  readonly northingMetres: number
  readonly collarLevelMetres: number
  /** From grid north, clockwise. */
  readonly azimuthDegrees: number
  /** Below horizontal; 90 is straight down, negative points up. */
  readonly dipDegrees: number
}

export interface SitePosition {
  readonly eastingMetres: number
  readonly northingMetres: number
  /** On the site's vertical datum, up positive. */
  readonly levelMetres: number
}

const radiansPerDegree = Math.PI / 180

/**
 * Position at a distance along a straight hole from its collar, in metres on the site grid. Grid and ground
 * metres are taken as equal.
 */
export function positionAtDepth(hole: Hole, depthMetres: number): SitePosition {
  const dip = hole.dipDegrees * radiansPerDegree
  const azimuth = hole.azimuthDegrees * radiansPerDegree
  const horizontalMetres = depthMetres * Math.cos(dip)
  return {
    eastingMetres: hole.eastingMetres + horizontalMetres * Math.sin(azimuth),
    northingMetres: hole.northingMetres + horizontalMetres * Math.cos(azimuth),
    levelMetres: hole.collarLevelMetres - depthMetres * Math.sin(dip),
  }
}

/** Distance along the hole at which it reaches a level; null where a level hole never does. */
export function depthAtLevel(hole: Hole, levelMetres: number): number | null {
  const fall = Math.sin(hole.dipDegrees * radiansPerDegree)
  return Math.abs(fall) < 1e-12 ? null : (hole.collarLevelMetres - levelMetres) / fall
}

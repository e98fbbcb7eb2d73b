/**
 * Mean of bearings in degrees, 0 up to 360: of 350° and 10° it is 0°, not 180°. NaN where they cancel out and no
 * direction is left.
 */
export function circularMeanDegrees(bearingsDegrees: readonly number[]): number {
  let north = 0
  let east = 0
  for (const bearing of bearingsDegrees) {
    north += Math.cos((bearing * Math.PI) / 180)
    east += Math.sin((bearing * Math.PI) / 180)
  }
  if (Math.hypot(north, east) < 1e-12 * bearingsDegrees.length || bearingsDegrees.length === 0)
    return Number.NaN
  const degrees = (Math.atan2(east, north) * 180) / Math.PI
  const turned = degrees < -1e-12 ? degrees + 360 : Math.max(0, degrees)
  return turned
}

const radians = (degrees: number): number => (degrees * Math.PI) / 180

/** Slope in mm/m of a tilt in degrees as sine: the offset of a gauge of a stated length along itself. */
export const sineSlopeMmPerM = (degrees: number): number => 1000 * Math.sin(radians(degrees))

/** As tangent: the fall over a stated horizontal distance. */
export const tangentSlopeMmPerM = (degrees: number): number => 1000 * Math.tan(radians(degrees))

/** As angle, which lies between the two; up to 1° the three differ by less than 0.02 %. */
export const angleSlopeMmPerM = (degrees: number): number => 1000 * radians(degrees)

/** Tilt in seconds of arc of a slope in mm/m: read as angle, tangent or sine. */
export const secondsOfSlope = (mmPerM: number, as: 'angle' | 'tangent' | 'sine'): number => {
  const slope = mmPerM / 1000
  const angle = as === 'tangent' ? Math.atan(slope) : as === 'sine' ? Math.asin(slope) : slope
  return (angle * 648_000) / Math.PI
}

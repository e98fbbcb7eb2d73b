/** Mean radius of the earth, metres; that of any ellipsoid anywhere differs by less than 0.4 %: 0.2 mm per km at 350 m. */
export const earthRadiusMetres = 6_371_000

/** Product of the point scale factor and R / (R + h): grid metres per metre on the ground. */
export const combinedFactorOf = (pointScaleFactor: number, heightMetres: number): number =>
  (pointScaleFactor * earthRadiusMetres) / (earthRadiusMetres + heightMetres)

/** Length on the ground from one on the grid, metres; over a few kilometres one factor serves. */
export const groundDistance = (gridMetres: number, combinedFactor: number): number =>
  gridMetres / combinedFactor

/** Length on the grid from one taped or measured on the ground, metres. */
export const gridDistance = (groundMetres: number, combinedFactor: number): number =>
  groundMetres * combinedFactor

/**
 * Bearing from grid north, 0 up to 360, from one read with a magnetic compass. Declination: magnetic north east
 * of true north positive, for the place and the date.
 */
export function gridBearing(
  magneticDegrees: number,
  declinationDegrees: number,
  convergenceDegrees: number,
): number {
  const bearing = (magneticDegrees + declinationDegrees - convergenceDegrees) % 360
  return bearing < 0 ? (bearing + 360) % 360 : bearing
}

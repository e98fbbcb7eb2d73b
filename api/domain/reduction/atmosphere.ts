/** Standard atmosphere to 11 km: ISO 2533:1975, geopotential altitude. */
const seaLevelPa = 101325
const seaLevelKelvin = 288.15
const lapseKelvinPerMetre = 0.0065
const gasConstant = 287.05287
const standardGravity = 9.80665
const exponent = standardGravity / (gasConstant * lapseKelvinPerMetre)
const nominalEarthRadiusMetres = 6356766

export interface StandardAir {
  readonly temperatureKelvin: number
  readonly pressurePa: number
  readonly densityKgPerM3: number
}

/** State of the standard atmosphere at a geopotential altitude of −2 to 11 km; NaN outside. */
export function standardAir(geopotentialMetres: number): StandardAir {
  const inside = geopotentialMetres >= -2000 && geopotentialMetres <= 11000
  const temperatureKelvin = inside ? seaLevelKelvin - lapseKelvinPerMetre * geopotentialMetres : Number.NaN
  const pressurePa = seaLevelPa * (temperatureKelvin / seaLevelKelvin) ** exponent
  return { temperatureKelvin, pressurePa, densityKgPerM3: pressurePa / (gasConstant * temperatureKelvin) }
}

/** Geopotential altitude at which the standard atmosphere has a pressure. */
export const altitudeOfPressure = (pressurePa: number): number =>
  (seaLevelKelvin / lapseKelvinPerMetre) * (1 - (pressurePa / seaLevelPa) ** (1 / exponent))

/** Geopotential altitude of a height above sea level. */
export const geopotentialMetres = (heightMetres: number): number =>
  (nominalEarthRadiusMetres * heightMetres) / (nominalEarthRadiusMetres + heightMetres)

/**
 * Pressure of a barometer carried up by `riseMetres` (negative: down) through air of a mean temperature:
 * the hypsometric equation for dry air; moisture changes the column by at most a few parts in a thousand.
 * Unit of the pressure is kept.
 */
export const pressureAtLevel = (pressure: number, riseMetres: number, meanTemperatureDegC: number): number =>
  pressure * Math.exp((-standardGravity * riseMetres) / (gasConstant * (meanTemperatureDegC + 273.15)))

/**
 * Station pressure from a weather report's sea-level pressure (QNH, which is reduced by the standard
 * atmosphere) at a station height. For unvented transducers a barometer on the site is better.
 */
export function stationPressure(seaLevelPressure: number, stationMetres: number): number {
  const altitude = altitudeOfPressure(seaLevelPa) + stationMetres
  return seaLevelPressure * (1 - (lapseKelvinPerMetre * altitude) / seaLevelKelvin) ** exponent
}

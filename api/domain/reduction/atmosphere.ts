import { sqlNumber, sqlPositive } from './sql-number.ts'

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

/**
 * Pressure at `riseMetres` above the place where it is `pressureKpa` (negative: below), by the standard atmosphere's
 * lapse from the altitude that has that pressure (ISO 2533). A vacuum stays one. Null where there is no such air:
 * a pressure below 0, or a rise beyond the top of that atmosphere.
 */
export function standardPressureAbove(pressureKpa: number, riseMetres: number): number | null {
  if (riseMetres === 0 || pressureKpa === 0) return pressureKpa
  const left = standardShare(pressureKpa, riseMetres)
  return left > 0 ? pressureKpa * left ** exponent : null
}

/** d(pressure above) / d(pressure); 1 without a rise. */
export const standardPressureSlope = (pressureKpa: number, riseMetres: number): number =>
  riseMetres === 0 ? 1 : standardShare(pressureKpa, riseMetres) ** (exponent - 1)

/** Temperature above over temperature below, in kelvin. */
const standardShare = (pressureKpa: number, riseMetres: number): number =>
  1 - (lapsePerMetre * riseMetres) / (pressureKpa / seaLevelKpa) ** (1 / exponent)

const lapsePerMetre = lapseKelvinPerMetre / seaLevelKelvin
const seaLevelKpa = seaLevelPa / 1000

/** `standardPressureAbove` as SQL of DOUBLE expressions. */
export function standardPressureAboveSql(pressureKpa: string, riseMetres: string): string {
  const ratio = sqlPositive(`(${pressureKpa} / ${sqlNumber(seaLevelKpa)})`)
  const share = `(${sqlNumber(1)} - (${sqlNumber(lapsePerMetre)} * ${riseMetres}) / pow(${ratio}, ${sqlNumber(1 / exponent)}))`
  return `case when ${riseMetres} = 0 or ${pressureKpa} = 0 then ${pressureKpa} else ${pressureKpa} * pow(${sqlPositive(share)}, ${sqlNumber(exponent)}) end`
}

/**
 * Pressure reduced to sea level from a station, as weather services do it: through a column of air whose mean
 * virtual temperature comes from the station's temperature and vapour pressure with a fictitious lapse of
 * 0.0065 K/m. `sea-level` pressure is no station pressure: never give it to a barometric term.
 * The two forms differ by their constants: of the German service (VuB 2), and of WMO-No. 8.
 */
export function reducedToSeaLevelHpa(
  station: {
    readonly pressureHpa: number
    readonly heightMetres: number
    readonly temperatureDegC: number
    readonly vapourPressureHpa: number
  },
  form: 'vub2' | 'wmo-8',
): number {
  const { pressureHpa, heightMetres, temperatureDegC, vapourPressureHpa } = station
  const meanKelvin =
    temperatureDegC + 273.15 + 0.12 * vapourPressureHpa + (lapseKelvinPerMetre * heightMetres) / 2
  return pressureHpa * Math.exp((columnKelvinPerMetre[form] * heightMetres) / meanKelvin)
}

const columnKelvinPerMetre = { vub2: standardGravity / 287.05, 'wmo-8': 0.0148275 * Math.LN10 } as const

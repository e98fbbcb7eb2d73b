/**
 * Density of air-free water at 101 325 Pa, kg/m³, for 0 to 40 °C: CIPM formula
 * (Tanaka et al. 2001, Metrologia 38, 301). NaN outside that range.
 */
export function waterDensity(temperatureDegC: number): number {
  if (!(temperatureDegC >= 0 && temperatureDegC <= 40)) return Number.NaN
  const t = temperatureDegC
  return 999.97495 * (1 - ((t - 3.983035) ** 2 * (t + 301.797)) / (522528.9 * (t + 69.34881)))
}

/**
 * Density of sea water at atmospheric pressure, kg/m³, from practical salinity 0 to 42 and temperature
 * −2 to 40 °C (IPTS-68, which differs from today's scale by less than 0.01 K here): one-atmosphere equation
 * of state EOS-80 (Fofonoff and Millard 1983, UNESCO Technical Papers 44). NaN outside.
 */
export function seaWaterDensity(practicalSalinity: number, temperatureDegC: number): number {
  const [S, t] = [practicalSalinity, temperatureDegC]
  if (!(S >= 0 && S <= 42 && t >= -2 && t <= 40)) return Number.NaN
  const pure =
    999.842594 +
    t * (6.793952e-2 + t * (-9.09529e-3 + t * (1.001685e-4 + t * (-1.120083e-6 + t * 6.536332e-9))))
  const a = 8.24493e-1 + t * (-4.0899e-3 + t * (7.6438e-5 + t * (-8.2467e-7 + t * 5.3875e-9)))
  const b = -5.72466e-3 + t * (1.0227e-4 - t * 1.6546e-6)
  return pure + a * S + b * S ** 1.5 + 4.8314e-4 * S * S
}

/**
 * Density of air-free water at 101 325 Pa, kg/m³, from a temperature of 0 to 150 °C on IPTS-68: Kell 1975, J. Chem.
 * Eng. Data 20, 97. About 0.003 kg/m³ below `waterDensity`. NaN outside. Copies of it in print transpose two digits
 * of the divisor's coefficient, which is a parameter here only so that their error can be shown.
 */
export function kellWaterDensity(t68DegC: number, divisorPerDegC = 16.87985e-3): number {
  if (!(t68DegC >= 0 && t68DegC <= 150)) return Number.NaN
  const t = t68DegC
  const dividend =
    999.83952 +
    t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 + t * -280.54253e-12))))
  return dividend / (1 + divisorPerDegC * t)
}

/** Density of fresh water, kg/m³, 0 to 100 °C: `waterDensity` as far as it reaches, hotter by Kell. NaN outside. */
export const freshWaterDensity = (temperatureDegC: number): number => {
  if (temperatureDegC <= 40) return waterDensity(temperatureDegC)
  return temperatureDegC <= 100 ? kellWaterDensity(temperatureDegC * t68PerT90) : Number.NaN
}

/** IPTS-68 over ITS-90 between 0 and 100 °C, to a thousandth of a degree. */
const t68PerT90 = 1.00024

/** m/s², by convention. */
export const standardGravity = 9.80665

/** Gravity on the ellipsoid in m/s² at a latitude: Somigliana's formula with the constants of WGS 84 (from memory). */
export function normalGravity(latitudeDegrees: number): number {
  const sineSquared = Math.sin((latitudeDegrees * Math.PI) / 180) ** 2
  return (9.7803253359 * (1 + 0.00193185265241 * sineSquared)) / Math.sqrt(1 - 0.00669437999013 * sineSquared)
}

/** Unit weight, kN/m³, of water of a density in kg/m³ where gravity is `gravity` m/s². */
export const unitWeightKnPerM3 = (densityKgPerM3: number, gravity = standardGravity): number =>
  (densityKgPerM3 * gravity) / 1000

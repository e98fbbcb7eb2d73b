import { sqlBind, sqlNumber } from './sql-number.ts'
import { waterDensity } from './water-density.ts'

/** What fills a column: air-free water, or a liquid of a known density at the zero temperature that expands evenly. */
export type ColumnLiquid =
  | { readonly kind: 'water' }
  | {
      readonly kind: 'expanding'
      readonly densityKgPerM3: number
      readonly zeroTemperatureDegC: number
      /** Cubic, per kelvin. */
      readonly expansionPerKelvin: number
    }

/** Density, kg/m³, at a temperature; NaN outside 0 to 40 °C for water, and where a liquid would expand without end. */
export function liquidDensity(liquid: ColumnLiquid, temperatureDegC: number): number {
  if (liquid.kind === 'water') return waterDensity(temperatureDegC)
  const swell = 1 + liquid.expansionPerKelvin * (temperatureDegC - liquid.zeroTemperatureDegC)
  return swell > 0 ? liquid.densityKgPerM3 / swell : Number.NaN
}

/** Its change with temperature, kg/m³ a kelvin. */
export function liquidDensityPerKelvin(liquid: ColumnLiquid, temperatureDegC: number): number {
  const t = temperatureDegC
  if (liquid.kind === 'expanding') {
    const density = liquidDensity(liquid, t)
    return (-liquid.expansionPerKelvin * density * density) / liquid.densityKgPerM3
  }
  const [near, far, base] = [t - 3.983035, t + 301.797, t + 69.34881]
  const slope = (2 * near * far + near * near) / base - (near * near * far) / (base * base)
  return (-999.97495 * slope) / 522528.9
}

/** `liquidDensity` as SQL of a DOUBLE expression; null where it is NaN. */
export function liquidDensitySql(liquid: ColumnLiquid, temperatureDegC: string): string {
  const n = sqlNumber
  if (liquid.kind === 'water')
    return sqlBind(
      temperatureDegC,
      't',
      `case when t >= 0 and t <= 40 then ${n(999.97495)} * (1 - ((t - ${n(3.983035)}) * (t - ${n(3.983035)}) * (t + ${n(301.797)})) / (${n(522528.9)} * (t + ${n(69.34881)}))) end`,
    )
  return sqlBind(
    `1 + ${n(liquid.expansionPerKelvin)} * (${temperatureDegC} - ${n(liquid.zeroTemperatureDegC)})`,
    's',
    `case when s > 0 then ${n(liquid.densityKgPerM3)} / s end`,
  )
}

import { sqlNumber } from './sql-number.ts'

/**
 * Unit weight of water in kN/m³ used where a site states no other: 9.81, the customary rounding.
 * Against the conventional 9.80665 (m[H2O]) it gives 0.03 % less head, 3 mm in 10 m.
 */
export const unitWeightOfWaterKnPerM3 = 9.81

/** Height of water in m that a pore pressure in kPa (above atmospheric) holds up: u / γw. Suction gives a negative head. */
export const pressureHeadMetres = (porePressureKpa: number, unitWeight = unitWeightOfWaterKnPerM3): number =>
  porePressureKpa / unitWeight

/** Level in m to which water would rise: level of the tip plus pressure head (ISO 18674-4, 3.4). Up is positive. */
export const piezometricLevelMetres = (
  tipLevelMetres: number,
  porePressureKpa: number,
  unitWeight = unitWeightOfWaterKnPerM3,
): number => tipLevelMetres + pressureHeadMetres(porePressureKpa, unitWeight)

/** Pore pressure at rest below a water level, kPa above atmospheric; 0 above it. Levels up positive, metres. */
export const hydrostaticKpa = (
  levelMetres: number,
  waterLevelMetres: number,
  unitWeight = unitWeightOfWaterKnPerM3,
): number => Math.max(0, unitWeight * (waterLevelMetres - levelMetres))

/** `pressureHeadMetres` as SQL of a DOUBLE expression. */
export const pressureHeadSql = (porePressureKpa: string, unitWeight = unitWeightOfWaterKnPerM3): string =>
  `(${porePressureKpa} / ${sqlNumber(unitWeight)})`

/** `piezometricLevelMetres` as SQL of DOUBLE expressions. */
export const piezometricLevelSql = (
  tipLevelMetres: string,
  porePressureKpa: string,
  unitWeight = unitWeightOfWaterKnPerM3,
): string => `(${tipLevelMetres} + ${pressureHeadSql(porePressureKpa, unitWeight)})`

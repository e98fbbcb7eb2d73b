/** Unit weight of fresh water, kN/m³: 9.81 by common practice, no published source. */
export const waterUnitWeightKnPerM3 = 9.81

/** Pore pressure at rest below a water level, kPa; 0 above it. Levels up positive, metres. */
export const hydrostaticKpa = (levelMetres: number, waterLevelMetres: number): number =>
  Math.max(0, (waterLevelMetres - levelMetres) * waterUnitWeightKnPerM3)

/** Level to which water would rise from a tip, metres: tip level + u / γw. Suction gives a level below the tip. */
export const piezometricLevelMetres = (tipLevelMetres: number, pressureKpa: number): number =>
  tipLevelMetres + pressureKpa / waterUnitWeightKnPerM3

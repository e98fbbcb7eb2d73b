/** Classes of platinum thermometers by IEC 60751, with the error in °C that each allows at a temperature, either way. */
export const platinumToleranceDegC = (tolerance: 'A' | 'B', temperatureDegC: number): number =>
  tolerance === 'A' ? 0.15 + 0.002 * Math.abs(temperatureDegC) : 0.3 + 0.005 * Math.abs(temperatureDegC)

/**
 * Share, per cent, of the greatest excess pore pressure that has gone. All three pressures in one unit; `hydrostatic`
 * is that of now (tide, lowering of the water table). Null where there was no excess.
 */
export function dissipationPercent(
  greatestPressure: number,
  pressureNow: number,
  hydrostaticNow: number,
): number | null {
  const excess = greatestPressure - hydrostaticNow
  return excess > 0 ? (100 * (greatestPressure - pressureNow)) / excess : null
}

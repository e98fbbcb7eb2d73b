/**
 * A value rounded to the decimals of its series as slices have it: half away from zero, counted in units of
 * 10^-decimals. NaN stays NaN; what is rounded to nothing is 0, never −0.
 */
export function roundAsPublished(value: number, decimals: number): number {
  const power = 10 ** decimals
  const scaled = value * power
  const whole = Math.trunc(scaled)
  const rounded = Math.abs(scaled - whole) >= 0.5 ? whole + Math.sign(scaled) : whole
  return rounded / power + 0
}

import { wellFunction } from './well-function.ts'

/** A confined layer of even thickness; any one unit of time, that of the pumping rate. */
export interface Aquifer {
  /** m² per unit of time. */
  readonly transmissivity: number
  /** Without unit. */
  readonly storativity: number
}

/** Drawdown, m, at a distance from a well pumped evenly for a time (Theis 1935); 0 before pumping, negative where water is put in. */
export function drawdownMetres(
  aquifer: Aquifer,
  ratePerTime: number,
  radiusMetres: number,
  timePumped: number,
): number {
  if (timePumped <= 0) return 0
  const perUnit = ratePerTime / (4 * Math.PI * aquifer.transmissivity)
  return perUnit * wellFunction(wellArgument(aquifer, radiusMetres, timePumped))
}

/** u = r²S/(4Tt), small where a well has been pumped long or is near. */
export const wellArgument = (
  { transmissivity, storativity }: Aquifer,
  radiusMetres: number,
  timePumped: number,
): number => (radiusMetres ** 2 * storativity) / (4 * transmissivity * timePumped)

/** The straight line's drawdown (Cooper and Jacob 1946) and whether it holds. */
export interface StraightLineDrawdown {
  readonly drawdownMetres: number
  /** Share by which it departs from Theis: negative where it is too small. */
  readonly departure: number
  /** True to u = 0.01, where the departure is a quarter of a per cent. */
  readonly justified: boolean
}

/** 4 e^(−γ) of the straight line; custom rounds it to 2.25. */
const lineFactor = 4 * Math.exp(-0.5772156649015329)

/**
 * Drawdown by the logarithm, Q/(4πT) ln(factor Tt/r²S). With the customary 2.25 for the factor it comes out 0.0019
 * Q/(4πT) larger, enough to turn the sign of the departure.
 */
export function straightLineDrawdown(
  aquifer: Aquifer,
  ratePerTime: number,
  radiusMetres: number,
  timePumped: number,
  factor = lineFactor,
): StraightLineDrawdown {
  const u = wellArgument(aquifer, radiusMetres, timePumped)
  const line = Math.log(factor / (4 * u))
  return {
    drawdownMetres: (ratePerTime / (4 * Math.PI * aquifer.transmissivity)) * line,
    departure: line / wellFunction(u) - 1,
    justified: u <= 0.01,
  }
}

/** Transmissivity from the still drawdowns of two wells (Thiem 1906), m² per unit of time. */
export const transmissivityOfTwoWells = (
  ratePerTime: number,
  near: { readonly radiusMetres: number; readonly drawdownMetres: number },
  far: { readonly radiusMetres: number; readonly drawdownMetres: number },
): number =>
  (ratePerTime * Math.log(far.radiusMetres / near.radiusMetres)) /
  (2 * Math.PI * (near.drawdownMetres - far.drawdownMetres))

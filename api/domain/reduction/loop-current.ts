/** What a current of a 4 to 20 mA loop says of itself. */
export type LoopCurrentState = 'fault-low' | 'undefined-low' | 'valid' | 'undefined-high' | 'fault-high'

/** Limits in mA: at or beyond the outer ones the transmitter reports its own failure, between the inner ones it measures. */
export const loopCurrentLimits = { faultLow: 3.6, validLow: 3.8, validHigh: 20.5, faultHigh: 21 } as const

/**
 * State of a loop current in mA by the bands of NAMUR recommendation NE 43: it measures from 3.8 to 20.5, it reports
 * a failure at 3.6 and below or 21 and above; what lies between belongs to neither band.
 */
export function loopCurrentState(milliamps: number): LoopCurrentState {
  const { faultLow, validLow, validHigh, faultHigh } = loopCurrentLimits
  if (milliamps <= faultLow) return 'fault-low'
  if (milliamps >= faultHigh) return 'fault-high'
  if (milliamps < validLow) return 'undefined-low'
  return milliamps > validHigh ? 'undefined-high' : 'valid'
}

import { hourMs } from './programme.ts'

/** Amplitude in metres, period in hours, phase in radians at 2027-01-01 00:00 UTC; phases are made up. */
const constituents = [
  [1.45, 12.4206012, 0.9],
  [0.48, 12, 2.1],
  [0.07, 23.9344696, 4.0],
  [0.06, 25.8193417, 5.2],
] as const

/** Level of the dock above its mean: M2, S2, K1 and O1. */
export function tideMetres(epochMs: number): number {
  const hours = (epochMs - Date.UTC(2027, 0, 1)) / hourMs
  let level = 0
  for (const [amplitude, period, phase] of constituents)
    level += amplitude * Math.cos((2 * Math.PI * hours) / period - phase)
  return level
}

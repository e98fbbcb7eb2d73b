import { normalShare } from './error-function.ts'
import { programme } from './programme.ts'

/** dBm needed at the gateway for spreading factors 7 to 12. */
const slowestSensitivityDbm = -137
const transmitDbm = 14

/** Loss over ground between two antennas, dB at 868 MHz. */
export const pathLossDb = (metres: number): number => 31.2 + 29 * Math.log10(Math.max(1, metres))

/** Obstructions of each logger in shadow, dB; LG-19 has 33 dB over the wall and 19 dB of struts around it. */
const shadowDb: Readonly<Record<string, number>> = {
  'LG-05': 24,
  'LG-06': 22,
  'LG-17': 18,
  'LG-18': 16,
  'LG-19': 52.7,
}
const openGroundDb = 4
const containersDb = 27.5
/** Packets lost to others on the air, whatever the signal. */
const collisionShare = 0.003

/** Signal at the gateway, dBm. */
export function signalDbm(logger: string, metres: number, epochMs: number): number {
  const shaded = shadowDb[logger] ?? openGroundDb
  const stacked =
    logger === 'LG-19' && epochMs >= programme.containersFrom && epochMs < programme.containersUntil
  return transmitDbm - pathLossDb(metres) - shaded - (stacked ? containersDb : 0)
}

/** Share of packets that arrive: normal in the margin, 6 dB. */
export const deliveredShare = (dbm: number): number =>
  normalShare((dbm - slowestSensitivityDbm) / 6) * (1 - collisionShare)

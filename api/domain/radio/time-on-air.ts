import { assert } from '../assert.ts'

/** A packet of the LoRa kind as it goes out. */
export interface RadioFrame {
  /** 6 to 12; each step doubles the length of a symbol. */
  readonly spreadingFactor: number
  readonly bandwidthHz: number
  /** Everything after the radio's own header: application bytes and what the network adds. */
  readonly payloadBytes: number
  /** 1 to 4 for rates 4/5 to 4/8. */
  readonly codingRate: number
  readonly preambleSymbols: number
  readonly explicitHeader: boolean
  readonly checksum: boolean
  /** Left out: on where a symbol lasts longer than 16 ms, as the regional parameters ask. */
  readonly lowRateOptimised?: boolean
}

/** Bytes that an open network protocol of this kind adds to the application's own (LoRaWAN 1.0, uplink without options). */
export const networkOverheadBytes = 13

/** How loggers usually send in the 868 MHz bands: 125 kHz, rate 4/5, preamble of 8, header and checksum. */
export const usualFrame = (spreadingFactor: number, payloadBytes: number): RadioFrame => ({
  spreadingFactor,
  bandwidthHz: 125_000,
  payloadBytes,
  codingRate: 1,
  preambleSymbols: 8,
  explicitHeader: true,
  checksum: true,
})

export const symbolSeconds = (spreadingFactor: number, bandwidthHz: number): number =>
  2 ** spreadingFactor / bandwidthHz

/**
 * Seconds that a packet is on the air: (preamble + 4.25 + n) symbols, with n = 8 + max(⌈(8·bytes − 4·SF + 28 +
 * 16·checksum − 20·no header) / (4(SF − 2·optimised))⌉(rate + 4), 0) (Bor and Roedig 2017; Casals et al. 2017). Leaving out
 * the low-rate optimisation gives times up to a sixth short at the slow factors.
 */
export function timeOnAirSeconds(frame: RadioFrame): number {
  const { spreadingFactor, bandwidthHz, payloadBytes, codingRate } = frame
  assert(
    spreadingFactor >= 6 && spreadingFactor <= 12 && bandwidthHz > 0 && payloadBytes >= 0,
    `a packet at factor ${spreadingFactor}, ${bandwidthHz} Hz with ${payloadBytes} bytes`,
  )
  const symbol = symbolSeconds(spreadingFactor, bandwidthHz)
  const optimised = frame.lowRateOptimised ?? symbol > 0.016
  const bits =
    8 * payloadBytes - 4 * spreadingFactor + 28 + (frame.checksum ? 16 : 0) - (frame.explicitHeader ? 0 : 20)
  const blocks = Math.ceil(bits / (4 * (spreadingFactor - (optimised ? 2 : 0))))
  return (frame.preambleSymbols + 4.25 + 8 + Math.max(blocks * (codingRate + 4), 0)) * symbol
}

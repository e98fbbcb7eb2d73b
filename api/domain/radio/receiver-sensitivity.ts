import type { SpreadingFactor } from '../site/vocabulary.ts'

/** Ratio of signal to noise in dB at which a receiver just demodulates, by spreading factor; common to open descriptions. */
const leastSignalToNoiseDb: Readonly<Record<SpreadingFactor, number>> = {
  7: -7.5,
  8: -10,
  9: -12.5,
  10: -15,
  11: -17.5,
  12: -20,
}

/** What is taken of transmitter and receiver where nobody states another. */
export interface RadioTerms {
  readonly frequencyMHz: number
  readonly bandwidthHz: number
  /** Noise that the receiver adds, dB. */
  readonly noiseFigureDb: number
  /** Radiated power of a logger against a dipole, dBm. */
  readonly radiatedPowerDbm: number
}

export const usualTerms: RadioTerms = {
  frequencyMHz: 868,
  bandwidthHz: 125_000,
  noiseFigureDb: 6,
  radiatedPowerDbm: 14,
}

/** Against an isotropic antenna a dipole gains this much, dB: e.i.r.p. is e.r.p. and 2.15 dB. */
export const dipoleGainDb = 2.15

/** Least signal in dBm that a receiver demodulates: thermal noise of −174 dBm/Hz, bandwidth, noise figure and what the factor needs. */
export const sensitivityDbm = (
  spreadingFactor: SpreadingFactor,
  { bandwidthHz, noiseFigureDb }: Pick<RadioTerms, 'bandwidthHz' | 'noiseFigureDb'> = usualTerms,
): number => -174 + 10 * Math.log10(bandwidthHz) + noiseFigureDb + leastSignalToNoiseDb[spreadingFactor]

/** dB by which a signal stands above what its spreading factor needs; negative where it does not reach. */
export const linkMarginDb = (
  signalDbm: number,
  spreadingFactor: SpreadingFactor,
  terms: Pick<RadioTerms, 'bandwidthHz' | 'noiseFigureDb'> = usualTerms,
): number => signalDbm - sensitivityDbm(spreadingFactor, terms)

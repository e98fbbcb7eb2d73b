/** A licence-exempt band and the share of an hour that one sender may be on the air in it. */
export interface DutyBand {
  readonly id: string
  readonly fromMhz: number
  readonly untilMhz: number
  /** 0 to 1. */
  readonly dutyShare: number
  /** Greatest effective radiated power, milliwatts. */
  readonly powerMilliwatts: number
}

/**
 * Bands between 863 and 870 MHz with duty-cycle limits for non-specific short-range devices (ERC/REC 70-03 annex 1;
 * ETSI EN 300 220-2 annex B). Guidance: national frequency rules and the edition in force hold.
 */
export const dutyBands868: readonly DutyBand[] = [
  { id: '863-865', fromMhz: 863, untilMhz: 865, dutyShare: 0.001, powerMilliwatts: 25 },
  { id: '865-868', fromMhz: 865, untilMhz: 868, dutyShare: 0.01, powerMilliwatts: 25 },
  { id: '868.0-868.6', fromMhz: 868, untilMhz: 868.6, dutyShare: 0.01, powerMilliwatts: 25 },
  { id: '868.7-869.2', fromMhz: 868.7, untilMhz: 869.2, dutyShare: 0.001, powerMilliwatts: 25 },
  { id: '869.4-869.65', fromMhz: 869.4, untilMhz: 869.65, dutyShare: 0.1, powerMilliwatts: 500 },
  { id: '869.7-870', fromMhz: 869.7, untilMhz: 870, dutyShare: 0.01, powerMilliwatts: 25 },
]

export const dutySource =
  'ERC/REC 70-03 annex 1 and ETSI EN 300 220-2 annex B, non-specific short-range devices without polite access. Guidance: the national rules and the edition in force hold.'

/** Where loggers of this kind send unless told otherwise. */
export const usualDutyBand = dutyBands868.find(({ id }) => id === '868.0-868.6') as DutyBand

/** Shortest seconds from one start to the next that keep within the share. */
export const shortestIntervalSeconds = (onAirSeconds: number, dutyShare: number): number =>
  onAirSeconds / dutyShare

/** Packets that fit into any hour, the time over which the share is counted (EN 300 220-1). */
export const packetsPerHour = (onAirSeconds: number, dutyShare: number): number =>
  Math.floor((3600 * dutyShare) / onAirSeconds)

/** Share of time that one sender is on the air. */
export const onAirShare = (onAirSeconds: number, intervalSeconds: number): number =>
  onAirSeconds / intervalSeconds

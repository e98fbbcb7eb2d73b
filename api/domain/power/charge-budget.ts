/** What a logger draws. Currents and charges are the maker's figures or, better, measured on one of the kind. */
export interface ChargeUse {
  readonly sleepMicroamps: number
  /** To wake, excite and read all its sensors once, millicoulombs. */
  readonly readingMillicoulombs: number
  readonly readingsADay: number
  readonly uplinkMillicoulombs: number
  readonly uplinksADay: number
}

export interface RadioCurrents {
  readonly transmitMilliamps: number
  readonly receiveMilliamps: number
  /** Seconds that each window after an uplink stays open. */
  readonly windowSeconds: number
  readonly windows: number
}

/** Millicoulombs of one uplink and the windows after it (structure as in Casals et al. 2017). */
export const uplinkMillicoulombs = (onAirSeconds: number, radio: RadioCurrents): number =>
  radio.transmitMilliamps * onAirSeconds + radio.receiveMilliamps * radio.windowSeconds * radio.windows

/** Mean current, microamperes: sleep and what readings and uplinks cost, spread over the day. */
export const meanMicroamps = (use: ChargeUse): number =>
  use.sleepMicroamps +
  (1000 * (use.readingMillicoulombs * use.readingsADay + use.uplinkMillicoulombs * use.uplinksADay)) / 86_400

/** Seconds between uplinks at which they cost as much as sleep. */
export const secondsAsDearAsSleep = (millicoulombs: number, sleepMicroamps: number): number =>
  (1000 * millicoulombs) / sleepMicroamps

export const coulombsOf = (milliampHours: number): number => 3.6 * milliampHours

export const wattHoursOf = (milliampHours: number, volts: number): number => (milliampHours * volts) / 1000

/** Mean current that empties a charge in so many years, microamperes. */
export const meanMicroampsOverYears = (milliampHours: number, years: number): number =>
  (1000 * milliampHours) / (years * 365.25 * 24)

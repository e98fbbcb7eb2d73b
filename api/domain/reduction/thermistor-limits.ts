import { sqlBind, sqlNumber } from './sql-number.ts'

/** Temperatures in °C that a thermistor in the ground, in concrete or in the open can have; beyond, it is open or shorted. */
export const thermistorLimits = { lowestDegC: -80, highestDegC: 200 } as const

/** A temperature that a thermistor can have; null for any other, and for none. */
export const plausibleThermistor = (temperatureDegC: number): number | null =>
  temperatureDegC >= thermistorLimits.lowestDegC && temperatureDegC <= thermistorLimits.highestDegC
    ? temperatureDegC
    : null

/** `plausibleThermistor` as SQL of a DOUBLE expression. */
export const plausibleThermistorSql = (temperatureDegC: string): string =>
  sqlBind(
    temperatureDegC,
    'step_c',
    `case when step_c between ${sqlNumber(thermistorLimits.lowestDegC)} and ${sqlNumber(thermistorLimits.highestDegC)} then step_c end`,
  )

/** Why there is no temperature, for the trail. */
export const noThermistorSentence = (resistance: string): string =>
  `A resistance of ${resistance} gives no temperature between −80 and 200 °C on this thermistor's curve; it is open, shorted or wired to something else.`

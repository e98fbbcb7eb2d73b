/** Furthest that a clock is taken to be wrong: 400 days; beyond, a date was typed wrongly. */
export const furthestClockSeconds = 400 * 86_400

/** Most that a clock is taken to gain or lose: an hour a day; beyond, its readings are in no order that could be told. */
export const furthestClockSecondsPerDay = 3600

import type { Minute } from '#domain/meeting/minute.ts'
import type { CalibrationRow, LoggerClock, SensorBarometer, Wiring } from '#domain/site/tables.ts'

/**
 * `GET /api/sites/:site/frozen/:set/records`: records that the site's document does not tell, as they stood when they were
 * frozen: by what readings became values, and what meetings wrote down.
 */
export interface FrozenRecords {
  readonly calibrations: readonly CalibrationRow[]
  readonly wiring: readonly Wiring[]
  /** Left out of sets that were frozen before barometers had dates. */
  readonly sensorBarometers?: readonly SensorBarometer[]
  /** Left out where no clock was on record. */
  readonly loggerClocks?: readonly LoggerClock[]
  readonly minutes: readonly Minute[]
}

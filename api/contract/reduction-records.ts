import type { CalibrationRow, Wiring } from '#domain/site/tables.ts'

/** `GET /api/sites/:site/frozen/:set/records`: by what readings became values, as it stood when they were frozen. */
export interface ReductionRecords {
  readonly calibrations: readonly CalibrationRow[]
  readonly wiring: readonly Wiring[]
}

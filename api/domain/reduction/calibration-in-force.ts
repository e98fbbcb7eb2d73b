import { groupBy } from '../group-by.ts'
import type { Calibration } from './chain.ts'

/** A calibration and the time in which it holds; until is exclusive, null while it lasts. */
export interface CalibrationPeriod {
  readonly calibration: Calibration
  readonly fromEpochMs: number
  readonly untilEpochMs: number | null
}

/**
 * When each calibration of each sensor holds: without overlap, in order of sensor and time. Of calibrations that
 * begin together the highest version holds; the others hold never and are not listed.
 */
export function calibrationPeriods(calibrations: readonly Calibration[]): readonly CalibrationPeriod[] {
  return [...groupBy(calibrations, ({ sensor }) => sensor).values()].flatMap((ofSensor) => {
    const holding = ofSensor
      .toSorted((one, other) => one.validFromEpochMs - other.validFromEpochMs || one.version - other.version)
      .filter((one, index, sorted) => one.validFromEpochMs !== sorted[index + 1]?.validFromEpochMs)
    return holding.map((calibration, index) => ({
      calibration,
      fromEpochMs: calibration.validFromEpochMs,
      untilEpochMs: holding[index + 1]?.validFromEpochMs ?? null,
    }))
  })
}

/** The calibration of one sensor in force at an instant, by the rule of `calibrationPeriods`; null before the first. */
export function calibrationAt(calibrations: readonly Calibration[], atEpochMs: number): Calibration | null {
  const period = calibrationPeriods(calibrations).find(
    ({ fromEpochMs, untilEpochMs }) =>
      fromEpochMs <= atEpochMs && (untilEpochMs === null || atEpochMs < untilEpochMs),
  )
  return period?.calibration ?? null
}

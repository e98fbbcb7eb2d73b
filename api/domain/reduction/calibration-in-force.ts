import { groupBy } from '../group-by.ts'
import type { Calibration } from './chain.ts'

/** What decides when a calibration holds. */
export type DatedCalibration = Pick<Calibration, 'sensor' | 'version' | 'validFromEpochMs'>

/** A calibration and the time in which it holds; until is exclusive, null while it lasts. */
export interface CalibrationPeriod<C extends DatedCalibration = Calibration> {
  readonly calibration: C
  readonly fromEpochMs: number
  readonly untilEpochMs: number | null
}

/**
 * When each calibration of each sensor holds: without overlap, in order of sensor and time. Of calibrations that
 * begin together the highest version holds; the others hold never and are not listed.
 */
export function calibrationPeriods<C extends DatedCalibration>(
  calibrations: readonly C[],
): readonly CalibrationPeriod<C>[] {
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
export function calibrationAt<C extends DatedCalibration>(
  calibrations: readonly C[],
  atEpochMs: number,
): C | null {
  const period = calibrationPeriods(calibrations).find(
    ({ fromEpochMs, untilEpochMs }) =>
      fromEpochMs <= atEpochMs && (untilEpochMs === null || atEpochMs < untilEpochMs),
  )
  return period?.calibration ?? null
}

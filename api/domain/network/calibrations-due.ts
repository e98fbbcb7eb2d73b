import type { CalibrationRow } from '../site/tables.ts'
import { type Wire, wiresAt } from './wires-in-force.ts'

export interface DueCalibration {
  readonly logger: string
  readonly sensor: string
  readonly calibration: string
  readonly certificate: string | null
  readonly dueEpochMs: number
}

export interface CalibrationsDue {
  /** Due before the end of the days ahead, the most overdue first. */
  readonly due: readonly DueCalibration[]
  /** Sensors read now whose calibration in force states no due date. */
  readonly withoutDate: number
  readonly sensors: number
}

/** Calibrations in force of sensors read at an instant that are due by then or within `daysAhead`. */
export function calibrationsDue(
  calibrations: readonly CalibrationRow[],
  wires: readonly Wire[],
  atEpochMs: number,
  daysAhead: number,
): CalibrationsDue {
  const latest = new Map<string, CalibrationRow>()
  for (const row of calibrations) {
    const before = latest.get(row.sensor)
    if (row.validFrom > atEpochMs) continue
    if (
      !before ||
      row.validFrom > before.validFrom ||
      (row.validFrom === before.validFrom && row.version > before.version)
    )
      latest.set(row.sensor, row)
  }
  const now = wiresAt(wires, atEpochMs).filter((wire) => !wire.ofLogger)
  const inForce = now.flatMap((wire) => {
    const row = latest.get(wire.sensor.id)
    return row ? [{ wire, row }] : []
  })
  return {
    due: inForce
      .flatMap(({ wire, row }) =>
        row.dueAt !== null && row.dueAt <= atEpochMs + daysAhead * 86_400_000
          ? [
              {
                logger: wire.logger,
                sensor: row.sensor,
                calibration: row.id,
                certificate: row.certificate,
                dueEpochMs: row.dueAt,
              },
            ]
          : [],
      )
      .toSorted((one, other) => one.dueEpochMs - other.dueEpochMs || one.sensor.localeCompare(other.sensor)),
    withoutDate: inForce.filter(({ row }) => row.dueAt === null).length,
    sensors: now.length,
  }
}

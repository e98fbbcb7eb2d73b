import { calibrationPeriods } from '../reduction/calibration-in-force.ts'
import { readCalibrations } from '../reduction/read-calibrations.ts'
import type { SiteModel } from '../site/site.ts'
import { type ZeroBaseline, zeroBaseline } from './zero-baseline.ts'

/** A calibration that holds for a time, and what its zero readings say; until is exclusive, null while it lasts. */
export interface HeldBaseline {
  readonly calibration: string
  readonly fromEpochMs: number
  readonly untilEpochMs: number | null
  /** Null: it has no zero readings. */
  readonly baseline: ZeroBaseline | null
}

/** Of every calibration of a sensor that is ever in force, in order of time; none where its chains cannot be read. */
export function baselinesOfSensor(
  model: Pick<
    SiteModel,
    'calibrations' | 'calibrationSteps' | 'sensors' | 'sensorBarometers' | 'zeroReadings'
  >,
  sensor: string,
): readonly HeldBaseline[] {
  const calibrations = model.calibrations.filter((row) => row.sensor === sensor)
  const names = new Set(calibrations.map(({ id }) => id))
  const read = readCalibrations({
    calibrations,
    calibrationSteps: model.calibrationSteps.filter(({ calibration }) => names.has(calibration)),
    sensors: model.sensors,
    sensorBarometers: model.sensorBarometers,
  })
  if (!read.ok) return []
  return calibrationPeriods(read.value).map(({ calibration, fromEpochMs, untilEpochMs }) => ({
    calibration: calibration.id,
    fromEpochMs,
    untilEpochMs,
    baseline: zeroBaseline(calibration, model.zeroReadings),
  }))
}

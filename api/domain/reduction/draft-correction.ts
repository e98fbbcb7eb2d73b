import type { SiteModel } from '../site/site.ts'
import type { CalibrationDraft } from './draft-calibration.ts'

/** Who enters a correction, from when it holds, and why. */
export interface CorrectionEntry {
  readonly validFromEpochMs: number
  readonly author: string
  readonly reason: string
}

/**
 * A draft of a sensor's next calibration that takes an amount, in its engineering unit, off its value: how a bias shift,
 * rotation or depth error found in a survey is corrected. It is looked at and saved like any draft, never by itself, and
 * the chain that held before is entered again from the next sound survey. To take e off a deviation (A0 − A180)/2, take
 * e off face 0 and −e off face 180. Null where the sensor has no calibration yet.
 */
export function draftCorrection(
  model: Pick<SiteModel, 'calibrations' | 'calibrationSteps'>,
  sensor: string,
  amountOff: number,
  { validFromEpochMs, author, reason }: CorrectionEntry,
): CalibrationDraft | null {
  const last = model.calibrations
    .filter((row) => row.sensor === sensor)
    .toSorted((one, other) => one.version - other.version)
    .at(-1)
  if (last === undefined) return null
  const steps = model.calibrationSteps
    .filter((row) => row.calibration === last.id)
    .toSorted((one, other) => one.step - other.step)
    .map(({ kind, parameters }) => ({ kind, parameters: parameters ?? '' }))
  return {
    sensor,
    follows: last.version,
    validFromEpochMs,
    certificate: last.certificate,
    calibratedAtEpochMs: last.calibratedAt,
    dueAtEpochMs: last.dueAt,
    standardUncertainty: last.standardUncertainty,
    steps: [...steps, { kind: 'zero', parameters: `value=${amountOff}` }],
    author,
    reason,
  }
}

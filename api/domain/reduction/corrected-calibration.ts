import type { CalibrationRow, CalibrationStepRow } from '../site/tables.ts'

/** Who enters a correction, from when until when it holds, and why. */
export interface CorrectionEntry {
  readonly validFrom: number
  readonly author: string
  readonly reason: string
}

/**
 * The next version of a sensor's calibration, with an amount taken off its value (engineering unit): how a found bias
 * shift, rotation or depth error of a survey is corrected. It is dated and versioned like any calibration, made only
 * when a person asks for it, and the version that held before is entered again when the survey after is sound. To take
 * `e` off a deviation (A0 − A180)/2, take `e` off face 0 and −e off face 180.
 */
export function correctedCalibration(
  before: CalibrationRow,
  stepsBefore: readonly CalibrationStepRow[],
  amountOff: number,
  { validFrom, author, reason }: CorrectionEntry,
): { readonly calibration: CalibrationRow; readonly steps: readonly CalibrationStepRow[] } {
  const version = before.version + 1
  const id = `${before.id.replace(/\/\d+$/, '')}/${version}`
  const steps = stepsBefore.map((step) => ({ ...step, calibration: id }))
  return {
    calibration: { ...before, id, version, validFrom, author, reason },
    steps: [
      ...steps,
      { calibration: id, step: steps.length + 1, kind: 'zero', parameters: `value=${amountOff}` },
    ],
  }
}

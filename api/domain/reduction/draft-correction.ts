import type { SiteModel } from '../site/site.ts'
import type { CalibrationRow } from '../site/tables.ts'
import type { CalibrationDraft } from './draft-calibration.ts'

/** Who enters a correction, from when it holds, and why. */
export interface CorrectionEntry {
  readonly validFromEpochMs: number
  readonly author: string
  readonly reason: string
}

/** What is taken off a value, in its engineering unit, and how well that is known. */
export interface CorrectionAmount {
  readonly amountOff: number
  readonly standardError: number
  /** Number of the correction that takes it off, where it takes something off other sensors too. */
  readonly correction?: number
}

type CalibratedModel = Pick<SiteModel, 'calibrations' | 'calibrationSteps'>

/**
 * A draft of a sensor's next calibration that takes an amount, in its engineering unit, off its value: how a bias shift,
 * rotation or depth error found in a survey is corrected. It goes on from the chain in force at that instant, is looked at
 * and saved like any draft, never by itself; its error adds to the calibration's. To take e off a deviation (A0 − A180)/2, take e off face 0 and −e off face
 * 180. Null where the sensor had no calibration then.
 */
export function draftCorrection(
  model: CalibratedModel,
  sensor: string,
  { amountOff, standardError, correction }: CorrectionAmount,
  entry: CorrectionEntry,
): CalibrationDraft | null {
  const held = rowInForce(model, sensor, entry.validFromEpochMs)
  if (held === null) return null
  const draft = draftRestoration(model, held, entry)
  // In proportion to the amount, so with its sign.
  const commonError = Math.sign(amountOff) * Number(standardError.toPrecision(6))
  const shared =
    correction === undefined ? '' : `; commonError=${plain(commonError)}; correction=${correction}`
  return {
    ...draft,
    standardUncertainty: Math.hypot(draft.standardUncertainty, standardError),
    steps: [...draft.steps, { kind: 'zero', parameters: `value=${amountOff}${shared}` }],
  }
}

/** Without an exponent that a person would stumble over; to a billionth. */
const plain = (value: number): string => String(Number(value.toFixed(9)))

/** A draft that enters again, from an instant on, what an earlier version says. */
export function draftRestoration(
  model: CalibratedModel,
  row: CalibrationRow,
  { validFromEpochMs, author, reason }: CorrectionEntry,
): CalibrationDraft {
  return {
    sensor: row.sensor,
    follows: Math.max(
      ...model.calibrations.filter(({ sensor }) => sensor === row.sensor).map(({ version }) => version),
    ),
    validFromEpochMs,
    certificate: row.certificate,
    calibratedAtEpochMs: row.calibratedAt,
    dueAtEpochMs: row.dueAt,
    standardUncertainty: row.standardUncertainty,
    steps: model.calibrationSteps
      .filter(({ calibration }) => calibration === row.id)
      .toSorted((one, other) => one.step - other.step)
      .map(({ kind, parameters }) => ({ kind, parameters: parameters ?? '' })),
    author,
    reason,
  }
}

/** The calibration of a sensor in force at an instant, as `calibrationAt` has it; null before the first. */
export function rowInForce(
  { calibrations }: Pick<SiteModel, 'calibrations'>,
  sensor: string,
  atEpochMs: number,
): CalibrationRow | null {
  return (
    calibrations
      .filter((row) => row.sensor === sensor && row.validFrom <= atEpochMs)
      .toSorted((one, other) => one.validFrom - other.validFrom || one.version - other.version)
      .at(-1) ?? null
  )
}

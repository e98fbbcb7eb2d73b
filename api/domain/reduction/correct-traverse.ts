import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { SiteModel } from '../site/site.ts'
import type { CalibrationRow } from '../site/tables.ts'
import { nextCorrection } from './correction-errors.ts'
import { type NextCalibration, nextCalibration } from './draft-calibration.ts'
import { type CorrectionAmount, draftCorrection, draftRestoration, rowInForce } from './draft-correction.ts'

/** A correction of a traversed casing along one axis, as a person decides it. */
export interface TraverseCorrection {
  readonly instrument: string
  readonly axis: 'a' | 'b'
  readonly surveyAtEpochMs: number
  /** `survey`: that survey alone; `onwards`: it and every later one. */
  readonly holds: 'survey' | 'onwards'
  /** What is taken off the deviation of each interval, mm. */
  readonly amounts: readonly {
    readonly point: string
    readonly amountOffMm: number
    /**
     * Of that amount; it is a further part of each face's standard uncertainty from then on. The amounts come from one
     * number of the survey, so their errors are one: common to all intervals, with the sign of the amount.
     */
    readonly standardErrorMm: number
  }[]
  readonly author: string
  readonly reason: string
}

type CorrectedModel = Pick<
  SiteModel,
  'calibrations' | 'calibrationSteps' | 'sensors' | 'sensorBarometers' | 'points' | 'instruments'
>

/** How long after a survey a correction of it alone ends: a survey's readings share one instant. */
const minuteMs = 60_000

/**
 * The calibrations that a correction becomes, for both faces of every interval: e off a deviation (face 0 − face 180)/2 is
 * e off face 0 and −e off face 180. All of them or none: with one interval refused, the sums would be wrong beyond it.
 * Where it holds for a survey alone, what held before is entered again a minute after it.
 */
export function correctTraverse(
  model: CorrectedModel,
  correction: TraverseCorrection,
): Outcome<readonly NextCalibration[]> {
  const faults = correctionFaults(model, correction)
  if (faults.length > 0) return reject(...faults)
  const made: NextCalibration[] = []
  const number = nextCorrection(model.calibrationSteps)
  const issues: Issue[] = []
  for (const { point, amountOffMm, standardErrorMm } of correction.amounts) {
    const off = Number(amountOffMm.toFixed(6))
    if (off === 0) continue
    for (const [face, sign] of [
      [0, 1],
      [180, -1],
    ] as const) {
      const outcome = correctFace(model, correction, `${point}/face-${correction.axis}${face}`, {
        amountOff: sign * off,
        standardError: standardErrorMm,
        correction: number,
      })
      if (outcome.ok) made.push(...outcome.value)
      else issues.push(...outcome.issues)
    }
  }
  return issues.length > 0 ? reject(...issues) : accept(made)
}

function correctFace(
  model: CorrectedModel,
  { surveyAtEpochMs, holds, author, reason }: TraverseCorrection,
  sensor: string,
  amount: CorrectionAmount,
): Outcome<readonly NextCalibration[]> {
  const draft = draftCorrection(model, sensor, amount, {
    validFromEpochMs: surveyAtEpochMs,
    author,
    reason,
  })
  if (draft === null)
    return reject({
      code: 'calibration-missing',
      column: 'amounts',
      value: sensor,
      message: `${sensor} had no calibration at the survey, so there is nothing to correct. Enter one in its record first.`,
    })
  const first = nextCalibration(model, draft)
  if (!first.ok || holds === 'onwards') return first.ok ? accept([first.value]) : first
  const endsAtEpochMs = surveyAtEpochMs + minuteMs
  const after = rowInForce(model, sensor, endsAtEpochMs) as CalibrationRow
  if (after.validFrom > surveyAtEpochMs) return accept([first.value])
  const corrected = {
    ...model,
    calibrations: [...model.calibrations, first.value.row],
    calibrationSteps: [...model.calibrationSteps, ...first.value.stepRows],
  }
  const second = nextCalibration(
    corrected,
    draftRestoration(corrected, after, {
      validFromEpochMs: endsAtEpochMs,
      author,
      reason: `As before: the correction of ${new Date(surveyAtEpochMs).toISOString()} holds for that survey alone.`,
    }),
  )
  return second.ok ? accept([first.value, second.value]) : second
}

function correctionFaults(
  { instruments, points, sensors }: CorrectedModel,
  { instrument, axis, surveyAtEpochMs, amounts }: TraverseCorrection,
): readonly Issue[] {
  const casing = instruments.find(({ id }) => id === instrument)
  if (casing?.kind !== 'traversed-inclinometer')
    return [
      {
        code: 'casing-unknown',
        column: 'instrument',
        value: instrument,
        message: `${instrument} is no traversed inclinometer of this site. Choose one of the register.`,
      },
    ]
  const read = new Set(sensors.flatMap(({ point, measure }) => (measure === `face-${axis}0` ? [point] : [])))
  // A point without faces stands for the casing as a whole.
  const own = points.filter(
    ({ id, instrument: of, retiredAt }) =>
      of === instrument && read.has(id) && (retiredAt === null || retiredAt > surveyAtEpochMs),
  )
  const given = new Map(amounts.map(({ point, amountOffMm }) => [point, amountOffMm]))
  const missing = own.filter(({ id }) => !given.has(id)).map(({ id }) => id)
  const strange = [...given.keys()].filter((id) => !own.some((point) => point.id === id))
  const issues: Issue[] = []
  if (missing.length > 0 || strange.length > 0 || given.size < amounts.length)
    issues.push({
      code: 'intervals-unlike',
      column: 'amounts',
      value: [...missing, ...strange].join(', '),
      expected: `each of the ${own.length} intervals of ${instrument} once`,
      message: `The correction does not name each interval of ${instrument} once: ${missing.length} are missing, ${strange.length} are not its own, ${amounts.length - given.size} stand twice. Look at the survey again and draft it anew.`,
    })
  for (const { point, amountOffMm, standardErrorMm } of amounts)
    if (!Number.isFinite(amountOffMm) || !(standardErrorMm >= 0 && Number.isFinite(standardErrorMm)))
      issues.push({
        code: 'number-expected',
        column: 'amounts',
        value: `${amountOffMm} ± ${standardErrorMm}`,
        message: `What is taken off ${point}, or its standard error, is no number. Draft the correction anew.`,
      })
  if (amounts.every(({ amountOffMm }) => amountOffMm === 0))
    issues.push({
      code: 'correction-nil',
      column: 'amounts',
      value: '0',
      message: 'The correction takes nothing off any interval, so there is nothing to save.',
    })
  return issues
}

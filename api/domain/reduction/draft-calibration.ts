import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { reservedAuthor } from '../site/reserved-author.ts'
import type { SiteModel } from '../site/site.ts'
import type { CalibrationRow, CalibrationStepRow } from '../site/tables.ts'
import type { StepKind } from '../site/vocabulary.ts'
import type { Calibration } from './chain.ts'
import { parseStepParameters } from './parse-step-parameters.ts'
import { readCalibrations } from './read-calibrations.ts'

/** A calibration that a person proposes; its name and number are given by `nextCalibration`. */
export interface CalibrationDraft {
  readonly sensor: string
  /** Version that the draft was made from; 0 where the sensor had none. */
  readonly follows: number
  readonly validFromEpochMs: number
  readonly certificate: string | null
  readonly calibratedAtEpochMs: number | null
  readonly dueAtEpochMs: number | null
  /** In the sensor's engineering unit. */
  readonly standardUncertainty: number
  readonly steps: readonly { readonly kind: StepKind; readonly parameters: string }[]
  readonly author: string
  readonly reason: string
}

/** The rows that a draft becomes, and the chain that they say. */
export interface NextCalibration {
  readonly row: CalibrationRow
  readonly stepRows: readonly CalibrationStepRow[]
  readonly calibration: Calibration
}

/**
 * The next version of a sensor's calibration from a draft, or every reason why not; an issue's `column` is the
 * place in the draft (`validFromEpochMs`, `steps.1.parameters`). A version never edits one before it: it holds from
 * its own instant until the next later one begins, and in place of one that begins with it.
 */
export function nextCalibration(
  model: Pick<SiteModel, 'calibrations' | 'calibrationSteps' | 'sensors' | 'sensorBarometers'>,
  draft: CalibrationDraft,
): Outcome<NextCalibration> {
  const sensor = model.sensors.find(({ id }) => id === draft.sensor)
  if (!sensor)
    return reject({
      code: 'sensor-unknown',
      column: 'sensor',
      value: draft.sensor,
      message: `There is no sensor ${draft.sensor} at this site. Choose one of the register.`,
    })
  const before = model.calibrations
    .filter((row) => row.sensor === sensor.id)
    .toSorted((one, other) => one.version - other.version)
  const last = before.at(-1)
  const version = (last?.version ?? 0) + 1
  const issues = [...textFaults(draft), ...dateFaults(draft)]
  if (draft.follows !== version - 1)
    issues.push({
      code: 'version-overtaken',
      column: 'follows',
      value: String(draft.follows),
      expected: String(version - 1),
      message: `The draft was made from version ${draft.follows}, but version ${version - 1} has been saved since. Look at that one first, then make the change again.`,
    })

  const id = nameOf(last?.id ?? sensor.id, version)
  const row: CalibrationRow = {
    id,
    sensor: sensor.id,
    version,
    validFrom: draft.validFromEpochMs,
    certificate: draft.certificate,
    calibratedAt: draft.calibratedAtEpochMs,
    dueAt: draft.dueAtEpochMs,
    standardUncertainty: draft.standardUncertainty,
    author: draft.author.trim(),
    reason: draft.reason.trim(),
  }
  const stepRows = draft.steps.map(({ kind, parameters }, index): CalibrationStepRow => {
    const text = parameters.trim()
    return { calibration: id, step: index + 1, kind, parameters: text === '' ? null : text }
  })
  const inSteps = draft.steps.flatMap(({ kind, parameters }, index) => {
    const parsed = parseStepParameters(kind, parameters)
    return parsed.ok ? [] : parsed.issues.map((issue) => ({ ...issue, column: `steps.${index}.parameters` }))
  })
  if (inSteps.length > 0) return reject(...issues, ...inSteps)
  const read = readCalibrations({ ...model, calibrations: [row], calibrationSteps: stepRows })
  if (!read.ok) return reject(...issues, ...read.issues.map((issue) => ({ ...issue, column: 'steps' })))
  const [calibration] = read.value
  if (issues.length > 0 || calibration === undefined) return reject(...issues)
  return accept({ row, stepRows, calibration })
}

/** `CC-118/2` is followed by `CC-118/3`; a name that does not end in its number gets one. */
const nameOf = (before: string, version: number): string => `${before.replace(/\/\d+$/, '')}/${version}`

function textFaults({ author, reason, standardUncertainty }: CalibrationDraft): Issue[] {
  const issues: Issue[] = []
  if (author.trim() === '')
    issues.push({
      code: 'author-missing',
      column: 'author',
      value: author,
      message: 'Nobody is named who enters it. Write your name.',
    })
  issues.push(...reservedAuthor(author))
  if (reason.trim() === '')
    issues.push({
      code: 'reason-missing',
      column: 'reason',
      value: reason,
      message: 'No reason is given. Say why this version is needed, so that it can be judged later.',
    })
  if (!(Number.isFinite(standardUncertainty) && standardUncertainty >= 0))
    issues.push({
      code: 'uncertainty-unfit',
      column: 'standardUncertainty',
      value: String(standardUncertainty),
      expected: '0 or more, in the engineering unit',
      message: 'The standard uncertainty must be a number that is not below 0. Take it from the certificate.',
    })
  return issues
}

function dateFaults({ validFromEpochMs, calibratedAtEpochMs, dueAtEpochMs }: CalibrationDraft): Issue[] {
  const issues: Issue[] = []
  if (!Number.isFinite(validFromEpochMs))
    issues.push({
      code: 'instant-expected',
      column: 'validFromEpochMs',
      value: String(validFromEpochMs),
      message: 'The first instant that it applies to is missing. Give date and time.',
    })
  if (calibratedAtEpochMs !== null && dueAtEpochMs !== null && dueAtEpochMs <= calibratedAtEpochMs)
    issues.push({
      code: 'due-before-calibrated',
      column: 'dueAtEpochMs',
      value: new Date(dueAtEpochMs).toISOString(),
      expected: 'later than the date of the certificate',
      message: 'The next calibration is due before this one was made. Correct one of the two dates.',
    })
  return issues
}

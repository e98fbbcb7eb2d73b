import type { CalibrationVersion } from '#contract/calibration-draft.ts'
import type { CalibrationDraft } from '#domain/reduction/draft-calibration.ts'
import { stepParameters } from '#domain/reduction/step-parameters.ts'
import type { StepKind } from '#domain/site/vocabulary.ts'
import { fromLocalField, toLocalField } from '../ui/format-instant.ts'

export interface StepFields {
  readonly kind: StepKind
  /** Texts by the names of `parameterNames`. */
  readonly values: Readonly<Record<string, string>>
}

/** A calibration as the texts of a form's fields. */
export interface CalibrationFields {
  /** Of a datetime-local field, in the site's zone. */
  readonly validFrom: string
  readonly certificate: string
  /** Of date fields. */
  readonly calibratedAt: string
  readonly dueAt: string
  readonly standardUncertainty: string
  readonly steps: readonly StepFields[]
  readonly author: string
  readonly reason: string
}

export interface ParameterName {
  readonly name: string
  readonly optional: boolean
}

/** The parameters of a kind of step, those that may be left empty last. */
export function parameterNames(kind: StepKind): readonly ParameterName[] {
  const { numbers, texts, optional = {} } = stepParameters[kind]
  const needed = [...numbers, ...texts].filter((name) => !(name in optional))
  return [
    ...needed.map((name) => ({ name, optional: false })),
    ...Object.keys(optional).map((name) => ({ name, optional: true })),
  ]
}

/** What the form begins with: the last version, to hold from the given instant on. */
export function fieldsOfVersion(
  last: CalibrationVersion | null,
  validFromEpochMs: number,
  timeZone: string,
  author: string,
): CalibrationFields {
  const dateText = (epochMs: number | null) =>
    epochMs === null ? '' : toLocalField(epochMs, timeZone).slice(0, 10)
  return {
    validFrom: toLocalField(validFromEpochMs, timeZone),
    certificate: last?.row.certificate ?? '',
    calibratedAt: dateText(last?.row.calibratedAt ?? null),
    dueAt: dateText(last?.row.dueAt ?? null),
    standardUncertainty: last === null ? '' : String(last.row.standardUncertainty),
    steps: (last?.stepRows ?? []).map(({ kind, parameters }) => ({
      kind,
      values: Object.fromEntries(
        (parameters ?? '').split(';').flatMap((pair) => {
          const at = pair.indexOf('=')
          return at < 0 ? [] : [[pair.slice(0, at).trim(), pair.slice(at + 1).trim()]]
        }),
      ),
    })),
    author,
    reason: '',
  }
}

/** The draft that a filled form says, unchecked: the server judges it and says what is wrong and where. */
export function draftOfFields(
  fields: CalibrationFields,
  sensor: string,
  follows: number,
  timeZone: string,
): Omit<CalibrationDraft, 'validFromEpochMs' | 'standardUncertainty'> & {
  readonly validFromEpochMs: number | null
  readonly standardUncertainty: number | null
} {
  const date = (text: string) => (text === '' ? null : fromLocalField(`${text}T00:00`, timeZone))
  return {
    sensor,
    follows,
    validFromEpochMs: fromLocalField(fields.validFrom, timeZone),
    certificate: fields.certificate.trim() === '' ? null : fields.certificate.trim(),
    calibratedAtEpochMs: date(fields.calibratedAt),
    dueAtEpochMs: date(fields.dueAt),
    standardUncertainty: numberOrNull(fields.standardUncertainty),
    steps: fields.steps.map(({ kind, values }) => ({
      kind,
      parameters: parameterNames(kind)
        .flatMap(({ name, optional }) => {
          const text = (values[name] ?? '').trim().replace('−', '-')
          return text === '' && optional ? [] : [`${name}=${text}`]
        })
        .join('; '),
    })),
    author: fields.author,
    reason: fields.reason,
  }
}

function numberOrNull(text: string): number | null {
  const value = Number(text.trim().replace('−', '-'))
  return text.trim() === '' || !Number.isFinite(value) ? null : value
}

/** The field of the form that an issue's place in the draft means: `steps.1` for anything in the second step. */
export function placeOfIssue(column: string | number | undefined): string | null {
  const path = String(column ?? '')
  const step = /^steps\.\d+/.exec(path)
  if (step) return step[0]
  return placeOfColumn[path] ?? null
}

const placeOfColumn: Readonly<Record<string, string>> = {
  validFromEpochMs: 'validFrom',
  certificate: 'certificate',
  calibratedAtEpochMs: 'calibratedAt',
  dueAtEpochMs: 'dueAt',
  standardUncertainty: 'standardUncertainty',
  author: 'author',
  reason: 'reason',
  steps: 'steps',
}

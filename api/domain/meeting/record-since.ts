import { siteTables, type TableName } from '../site/tables.ts'

/** What a record that was written after a set was frozen is about. */
export type RecordSinceKind =
  | 'calibration'
  | 'zero'
  | 'barometer'
  | 'clock'
  | 'wiring'
  | 'verdict'
  | 'level'
  | 'approval'
  | 'stage'
  | 'other'

/** A version of a record of a site, as it was written. */
export interface WrittenRecord {
  /** Table, `facts` or `works`. */
  readonly kind: string
  readonly key: string
  /** Null: withdrawn by this version. */
  readonly body: Readonly<Record<string, unknown>> | null
  /** Null: this is the first version, or it had been withdrawn. */
  readonly before: Readonly<Record<string, unknown>> | null
}

/** A record written since, in the words of whoever looks at frozen data. */
export interface RecordSinceFacts {
  readonly kind: RecordSinceKind
  /** Of the record: `CC-118/2`. */
  readonly name: string
  readonly what: 'added' | 'corrected' | 'withdrawn'
  /** Series that it is about; null: of an instrument, or of the site. */
  readonly series: string | null
  /** Measuring point or instrument; null: of the site. */
  readonly place: string | null
  /** Since when, and until when (exclusive, null: on and on) it applies; null: it says no instant. */
  readonly fromEpochMs: number | null
  readonly untilEpochMs: number | null
  /** "The calibration of PZ-05C was corrected." */
  readonly sentence: string
}

const kindOf: Partial<Record<TableName, RecordSinceKind>> = {
  calibrations: 'calibration',
  calibrationSteps: 'calibration',
  zeroReadings: 'zero',
  sensorBarometers: 'barometer',
  loggerClocks: 'clock',
  wiring: 'wiring',
  verdicts: 'verdict',
  verdictReviews: 'verdict',
  verdictWithdrawals: 'verdict',
  triggerLevels: 'level',
  approvals: 'approval',
  approvalWithdrawals: 'approval',
  stages: 'stage',
}

/** Records that say who is told, what meetings said, or in which order rows stand, change nothing of what a frozen set shows. */
const apart: ReadonlySet<string> = new Set([
  'contacts',
  'dutyShifts',
  'holidays',
  'escalations',
  'suppressions',
  'suppressionEnds',
  'meetings',
  'boards',
  'minutes',
  'actionEntries',
  'layout',
  'order',
])

/** Of those, what is frozen all the same, since reports tell of it. */
const frozenApart: ReadonlySet<string> = new Set(['minutes', 'actionEntries'])

/** Rows that are said with the record that they are part of: its table, and the column that names it. */
const partOf: Partial<Record<TableName, readonly [TableName, string]>> = {
  calibrationSteps: ['calibrations', 'calibration'],
  verdictEvidence: ['verdicts', 'verdict'],
}

/** Whether a set that is frozen anew may show something else for a record of a kind. */
export const showsInFrozen = (kind: string): boolean => !apart.has(kind) || frozenApart.has(kind)

/**
 * What a record written since is about; null: nothing that a frozen set shows, or said with another. `bodyOf` gives the
 * latest body of another record, by table and key, for those that only name it; `isWritten` whether it was written since
 * too: a step of a calibration that changed alone corrects its calibration.
 */
export function recordSince(
  { kind: table, key, body, before }: WrittenRecord,
  bodyOf: (table: TableName, key: string) => Readonly<Record<string, unknown>> | null,
  isWritten: (table: TableName, key: string) => boolean,
): RecordSinceFacts | null {
  if (apart.has(table)) return null
  const kind = kindOf[table as TableName] ?? 'other'
  const said = { ...before, ...body }
  const [whole, column] = partOf[table as TableName] ?? []
  if (whole && column) {
    const name = textOf(said[column]) ?? ''
    const latest = bodyOf(whole, name)
    return isWritten(whole, name)
      ? null
      : recordSince({ kind: whole, key: name, body: latest ?? {}, before: latest ?? {} }, bodyOf, isWritten)
  }
  const about = { ...aboutOf(table, said, bodyOf), ...said }
  const series = textOf(about.series) ?? textOf(about.sensor)
  const place =
    (series ?? '').split('/')[0] || textOf(about.instrument) || textOf(about.point) || textOf(about.logger)
  const what = whatOf(table, body, before)
  return {
    kind,
    name: key,
    what,
    series,
    place,
    fromEpochMs: numberOf(about.validFrom) ?? numberOf(about.fromAt) ?? numberOf(about.startsAt),
    untilEpochMs: numberOf(about.validUntil) ?? numberOf(about.untilAt) ?? numberOf(about.endsAt),
    sentence: sentenceOf(kind, table, key, place, what),
  }
}

/** Zero readings name their calibration, withdrawals and reviews what they are about. */
function aboutOf(
  table: string,
  said: Readonly<Record<string, unknown>>,
  bodyOf: (table: TableName, key: string) => Readonly<Record<string, unknown>> | null,
): Readonly<Record<string, unknown>> {
  if (table === 'zeroReadings') return bodyOf('calibrations', textOf(said.calibration) ?? '') ?? {}
  if (table === 'verdictWithdrawals' || table === 'verdictReviews')
    return bodyOf('verdicts', textOf(said.verdict) ?? '') ?? {}
  if (table === 'approvalWithdrawals') return bodyOf('approvals', textOf(said.approval) ?? '') ?? {}
  return {}
}

function whatOf(
  table: string,
  body: WrittenRecord['body'],
  before: WrittenRecord['before'],
): RecordSinceFacts['what'] {
  if (body === null || table === 'verdictWithdrawals' || table === 'approvalWithdrawals') return 'withdrawn'
  // A later version of a calibration is a record of its own; a first barometer with a date follows the one without, and a
  // first clock the stamps as sent.
  if (before !== null || table === 'sensorBarometers' || table === 'loggerClocks') return 'corrected'
  if (table === 'calibrations' && (numberOf(body.version) ?? 1) > 1) return 'corrected'
  return 'added'
}

const nouns: Readonly<Record<Exclude<RecordSinceKind, 'other'>, string>> = {
  calibration: 'The calibration',
  zero: 'A zero reading',
  barometer: 'The barometer',
  clock: 'The clock',
  wiring: 'The wiring',
  verdict: 'A verdict',
  level: 'The level',
  approval: 'An approval',
  stage: 'The stage',
}

function sentenceOf(
  kind: RecordSinceKind,
  table: string,
  key: string,
  place: string | null,
  what: RecordSinceFacts['what'],
): string {
  if (kind === 'other') return `${otherNoun(table, key)} was ${what}.`
  if (table === 'verdictReviews') return `A verdict${place ? ` of ${place}` : ''} was looked at again.`
  const named = kind === 'level' || kind === 'stage' ? ` ${key}` : ''
  return `${nouns[kind]}${named}${place ? ` of ${place}` : ''} was ${what}.`
}

function otherNoun(table: string, key: string): string {
  if (table === 'facts') return 'What holds for the whole site'
  if (table.startsWith('works')) return key ? `The works feature ${key}` : 'The works'
  const file = (siteTables as Readonly<Record<string, { readonly file: string }>>)[table]?.file
  return `The record ${key} of ${(file ?? table).replace(/\.csv$/, '').replaceAll('-', ' ')}`
}

const textOf = (value: unknown): string | null => (typeof value === 'string' && value !== '' ? value : null)
const numberOf = (value: unknown): number | null => (typeof value === 'number' ? value : null)

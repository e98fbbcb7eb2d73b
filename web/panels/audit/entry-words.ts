import type { AuditAction, AuditEntry } from '#domain/audit/audit-entry.ts'

/** What a kind of subject is called, one of it. */
export const subjectName = (kind: string): string => subjectNames[kind] ?? capitalised(spacedWords(kind))

/** What happened to what: `Trigger level TL-4, version 2: changed`. */
export function entrySentence({ subjectKind, subjectKey, version, action }: AuditEntry): string {
  const key = subjectKey === '' ? '' : ` ${readableKey(subjectKey)}`
  const which = version !== null && version > 1 ? `, version ${version}` : ''
  const done = subjectKind === 'session' && action === 'signed-in' ? 'began' : actionWords[action]
  return `${subjectName(subjectKind)}${key}${which}: ${done}`
}

/** Keys of several cells are kept as a JSON array. */
export function readableKey(key: string): string {
  if (!key.startsWith('[')) return key
  try {
    const cells: unknown = JSON.parse(key)
    return Array.isArray(cells) ? cells.map(String).join(', ') : key
  } catch {
    return key
  }
}

/** `formationLevelMetres` as words. */
export const spacedWords = (name: string): string =>
  name
    .replaceAll('-', ' ')
    .replaceAll(/([a-z0-9])([A-Z])/g, '$1 $2')
    .toLowerCase()

const capitalised = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1)

const subjectNames: Readonly<Record<string, string>> = {
  facts: 'Facts of the site',
  works: 'Feature of the works',
  'works-collection': 'Works',
  order: 'Order of rows of',
  layout: 'File layout',
  batch: 'File, batch',
  audit: 'Audit record',
  alert: 'Alert',
  'share-link': 'Link to read by',
  stages: 'Stage of the works',
  locations: 'Location',
  strata: 'Layer',
  instruments: 'Instrument',
  points: 'Measuring point',
  sensors: 'Sensor',
  loggers: 'Logger',
  gateways: 'Gateway',
  wiring: 'Wiring',
  calibrations: 'Calibration',
  calibrationSteps: 'Calibration step',
  sensorBarometers: 'Barometer of a sensor',
  loggerClocks: 'Clock of a logger',
  triggerLevels: 'Trigger level',
  holdPoints: 'Hold point',
  coverageTests: 'Coverage test',
  diary: 'Diary',
  checkLimits: 'Check limit',
  verdicts: 'Verdict',
  verdictWithdrawals: 'Withdrawal of verdict',
  verdictEvidence: 'Evidence of verdict',
  verdictReviews: 'Second look at verdict',
  predictions: 'Prediction',
  zeroReadings: 'Zero reading',
  joins: 'Join of series',
  contacts: 'Contact',
  dutyShifts: 'Shift of a duty',
  holidays: 'Holiday',
  escalations: 'Step of telling',
  suppressions: 'Suppression',
  suppressionEnds: 'End of a suppression',
  meetings: 'Meeting',
  boards: 'Board of meeting',
  minutes: 'Minute',
  actionEntries: 'Entry on action',
  report: 'Report',
  'frozen-set': 'Frozen data',
  'correction-proposal': 'Proposal for a correction',
  'level-proposal': 'Proposal for a trigger level',
}

const actionWords: Readonly<Record<AuditAction, string>> = {
  began: 'begun',
  made: 'made',
  changed: 'changed',
  withdrawn: 'withdrawn',
  taken: 'taken in',
  refused: 'refused',
  replaced: 'replaced',
  given: 'role given',
  disabled: 'disabled',
  enabled: 'may sign in again',
  'signed-in': 'signed in',
  ended: 'ended',
  used: 'used',
  approved: 'approved',
  raised: 'raised',
  delivered: 'delivered',
  failed: 'failed',
  escalated: 'escalated',
  acknowledged: 'acknowledged',
  verified: 'verified',
  closed: 'closed',
  reopened: 'opened again',
  suppressed: 'suppressed',
  shown: 'shown',
  mismatch: 'did not fit',
}

import type { ReportManifest } from '#domain/report/report.ts'

/** A monthly report for September 2027 of small-quay, the first of its kind, changed as wanted. */
export const manifestFor = (changed: Partial<ReportManifest> = {}): ReportManifest => ({
  form: 1,
  site: 'small-quay',
  kind: 'monthly',
  number: 1,
  fromEpochMs: Date.UTC(2027, 8, 1),
  untilEpochMs: Date.UTC(2027, 9, 1),
  paper: 'A4',
  parts: ['exceedances', 'histories'],
  views: [],
  statement: {
    text: 'Nothing moved beyond what the design expects.',
    author: 'Ada Marsh',
    atEpochMs: Date.UTC(2027, 9, 2),
  },
  frozenSet: '0123456789abcdef',
  cutOffEpochMs: Date.UTC(2027, 9, 1, 6),
  previousFrozenSet: null,
  previousNumber: null,
  previousUntilEpochMs: null,
  software: '0.1.0',
  ...changed,
})

export const reportKinds = ['weekly', 'monthly', 'on-request'] as const
export type ReportKind = (typeof reportKinds)[number]

export const papers = ['A4', 'A3'] as const
export type Paper = (typeof papers)[number]

/** The parts of a report that may be left out; statement, changes since the last issue, completeness and cautions may not. */
export const reportParts = [
  'exceedances',
  'plan',
  'sections',
  'profiles',
  'histories',
  'calibrations',
  'minutes',
] as const
export type ReportPart = (typeof reportParts)[number]

/** Everything that a report is made from beside its frozen data sets: the same manifest makes the same bytes. */
export interface ReportManifest {
  readonly form: 1
  readonly site: string
  readonly kind: ReportKind
  /** Counted by site and kind, from 1. */
  readonly number: number
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  readonly paper: Paper
  readonly parts: readonly ReportPart[]
  /** Addresses (query parts) of views that somebody chose to put in, with their captions. */
  readonly views: readonly { readonly address: string; readonly caption: string }[]
  /** The engineer's own words, who says them, and when they were signed. */
  readonly statement: { readonly text: string; readonly author: string; readonly atEpochMs: number }
  readonly frozenSet: string
  readonly cutOffEpochMs: number
  /** Frozen data set of the issue before; null: this is the first. */
  readonly previousFrozenSet: string | null
  readonly previousNumber: number | null
  /** End of the period that the issue before told of: what came for instants before it is a revision. */
  readonly previousUntilEpochMs: number | null
  readonly software: string
}

/** A report that was given out: never changed, only followed by another. */
export interface IssuedReport {
  readonly id: number
  readonly manifest: ReportManifest
  readonly files: readonly {
    readonly name: 'report.html' | 'report.pdf'
    readonly sha256: string
    readonly bytes: number
  }[]
  readonly issuedBy: string
  readonly issuedAtEpochMs: number
}

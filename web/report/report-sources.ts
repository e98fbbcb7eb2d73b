import type { AlertsDocument } from '#contract/alerts.ts'
import type { FrozenRecords } from '#contract/frozen-records.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import type { SliceList } from '#contract/slice-list.ts'
import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { ReportManifest } from '#domain/report/report.ts'
import type { Columns } from '../engine/columns.ts'
import type { Query } from '../engine/query.ts'

/** The documents of a frozen data set. */
export interface FrozenDocuments {
  readonly set: FrozenSet
  readonly site: SiteDocument
  readonly alerts: AlertsDocument
  readonly slices: SliceList
  /** Null: the set does not hold them. */
  readonly records: FrozenRecords | null
}

/** Which of the two sets a question is asked of. */
export type FrozenSide = 'now' | 'before'

/** Everything that a report is made from; nothing beside it is asked, and no clock is read. */
export interface ReportSources {
  readonly manifest: ReportManifest
  readonly now: FrozenDocuments
  /** Of the issue before; null: this is the first. */
  readonly before: FrozenDocuments | null
  /** Asks the engine over the slices of a set. Throws where a slice cannot be had: a report never lacks one in silence. */
  readonly ask: (side: FrozenSide, query: Query) => Promise<Columns>
  /** Told before each part, in words, with the share of the work that is done, 0 to 1. */
  readonly onProgress?: (sentence: string, share: number) => void
}

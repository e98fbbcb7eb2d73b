import type { FrozenSet } from '#domain/meeting/frozen-set.ts'
import type { ChannelClock, Signature } from './store.ts'

/** How far a site had come when it was looked at; counts of the store, not instants. */
export interface SiteProgressMark {
  readonly revision: number
  /** Revision of the last change of records; readings that arrive do not move it. */
  readonly recordsRevision: number
  /** Number of the last batch. */
  readonly batch: number
  /** Numbers of the last entry of the audit record and of the last event of the site's alerts. */
  readonly auditNumber: number
  readonly alertEvent: number
}

/** A frozen set as it is kept: `mark` is what the site had come to when it was made. */
export interface KeptFrozenSet {
  readonly set: FrozenSet
  readonly mark: SiteProgressMark
}

/** Readings counted by a bound of receipt: those in it were received by the instant, in a batch up to the number. */
export interface ReceiptBound {
  readonly receivedUntilEpochMs: number
  readonly throughBatch: number
}

/** Readings of a channel that stand before a cut-off and that a bound leaves out, by the UTC day in which they stand. */
export interface LaterReadings {
  readonly channel: number
  readonly atEpochMs: number
  readonly count: number
  readonly lastReceivedEpochMs: number
}

/** A version of a record that was written after an entry of the audit record. */
export interface LaterRecord {
  readonly kind: string
  readonly key: string
  readonly version: number
  readonly atEpochMs: number
  readonly author: string
  readonly reason: string
  /** Null: withdrawn. */
  readonly body: Readonly<Record<string, unknown>> | null
  readonly before: Readonly<Record<string, unknown>> | null
}

/** Frozen data sets: part of the store. Files lie beside it; what is here says that they are whole. */
export interface FrozenSetVerbs {
  markOf(site: string): Promise<SiteProgressMark>
  /** When the first reading of the site was received; null: it has none. */
  firstReceiptEpochMs(site: string): Promise<number | null>
  /** Keeps a set and its entry in the audit record, in one transaction. False: it is there already, and stays as it is. */
  addFrozenSet(set: FrozenSet, mark: SiteProgressMark, signature: Signature): Promise<boolean>
  /** Those of a site, newest cut-off first, then newest first. */
  listFrozenSets(site: string): Promise<readonly KeptFrozenSet[]>
  /**
   * By channel and day (UTC), the readings taken before an instant that a bound leaves out. One taken at that very instant
   * cannot have been received by then.
   */
  listLaterReadings(
    site: string,
    bound: ReceiptBound,
    takenBeforeEpochMs: number,
    clocks?: readonly ChannelClock[],
  ): Promise<readonly LaterReadings[]>
  /** Versions of records that entries of the audit record after a number speak of, in their order. */
  listLaterRecords(site: string, afterAuditNumber: number): Promise<readonly LaterRecord[]>
}

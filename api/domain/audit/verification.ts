import type { ChainHead } from './audit-entry.ts'
import type { ChainBreak } from './check-chain.ts'

/** A kept record, or a step of an alert or a proposal, that is not as the audit record has it; `version` counts steps too. */
export interface RecordFault {
  readonly site: string
  readonly kind: string
  readonly key: string
  readonly version: number
  readonly sentence: string
}

/** What came of checking the audit record. */
export interface AuditVerification {
  readonly entries: number
  /** Where the entries that fit to each other end. */
  readonly head: ChainHead
  /** Null: every entry fits. */
  readonly firstBreak: ChainBreak | null
  /** The first kept records that do not fit to it, at most twenty, and how many there are. */
  readonly recordFaults: readonly RecordFault[]
  readonly recordFaultCount: number
  /** Kept record versions that were held against their entries. */
  readonly recordsCompared: number
  /** Record versions from before the audit record began, of which it has one hash together. */
  readonly recordsBefore: number
  /** What is to be known besides: what no check was possible of, and breaks that were met at earlier starts. */
  readonly notices: readonly string[]
}

/** Whether nothing was found that does not fit. */
export const fitsWhole = ({ firstBreak, recordFaultCount }: AuditVerification): boolean =>
  firstBreak === null && recordFaultCount === 0

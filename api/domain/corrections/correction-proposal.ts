import type { Kept, Proposal } from '../proposals/proposal.ts'
import type { ProposedCorrection } from './correction.ts'
import { isOverlapping } from './overlapping-corrections.ts'

/** Readings at or past a trigger level in the time of a correction, as recorded and as corrected. */
export interface LevelEffect {
  /** Id of the level. */
  readonly id: string
  readonly level: number
  readonly direction: string
  readonly value: number
  readonly reachedBefore: number
  readonly reachedAfter: number
}

/** What corrections do to one series in their time, over every raw reading that the store has. */
export interface CorrectionEffect {
  readonly series: string
  readonly unit: string
  readonly decimals: number
  readonly readings: number
  /** Of them, those whose value, or the lack of one, is another. */
  readonly changed: number
  readonly lost: number
  readonly gained: number
  /**
   * Of a clock: readings that stand at another instant, by how much at most, later positive, and those of them that were in
   * time and would count as received late; left out: none.
   */
  readonly moved?: { readonly readings: number; readonly mostSeconds: number; readonly newlyLate: number }
  /** Mean over readings that have another value; null where there is none. */
  readonly meanChange: number | null
  readonly greatestChange: {
    readonly atEpochMs: number
    readonly before: number
    readonly after: number
  } | null
  readonly levels: readonly LevelEffect[]
}

/** What an approver is to look at. */
export interface CorrectionEvidence {
  /** Query part of the page's address, `?…`, in which the sandbox shows the same. */
  readonly sandbox: string
  readonly effects: readonly CorrectionEffect[]
  /** Series that change with them: corrected by them or made from them. */
  readonly alsoChanges: readonly string[]
}

/** Corrections that a person offers for the record. */
export interface CorrectionProposal extends Proposal {
  readonly changes: readonly ProposedCorrection[]
  readonly evidence: CorrectionEvidence
}

/** Numbers of other proposals that wait and are of a series of this one in some of the same time. */
export const overlappingProposals = (
  changes: readonly ProposedCorrection[],
  others: readonly Kept<CorrectionProposal>[],
): readonly number[] =>
  others
    .filter(
      ({ decision, changes: own }) =>
        decision === null && own.some((one) => changes.some((change) => isOverlapping(one, change))),
    )
    .map(({ number }) => number)

/** Said wherever a correction is offered or decided. */
export const rawStaysSentence =
  'Raw readings stay as they are, with the stamps that loggers sent: only how values are made of them changes, from the instant named on, and by a clock for whatever is stamped from there on.'

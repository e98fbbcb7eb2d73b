import type { ProposedCorrection } from './correction.ts'
import { isOverlapping } from './resolve-corrections.ts'

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
export interface CorrectionProposal {
  readonly author: string
  /** Id of the author's account; null: there were none, and the name was typed. */
  readonly account: string | null
  readonly reason: string
  readonly atEpochMs: number
  readonly changes: readonly ProposedCorrection[]
  readonly evidence: CorrectionEvidence
}

/** What became of a proposal: decided by a second person, or taken back by whoever made it. It is final. */
export interface CorrectionDecision {
  readonly kind: 'approved' | 'rejected' | 'withdrawn'
  readonly by: string
  readonly account: string | null
  readonly reason: string
  readonly atEpochMs: number
}

/** A proposal as the store has it; without a decision it waits for one. */
export interface StoredCorrection extends CorrectionProposal {
  /** 1, 2, 3 … at its site. */
  readonly number: number
  readonly decision: CorrectionDecision | null
}

/** Whether someone made a proposal: by account where it has one, else by the written name. */
export const isProposer = (
  proposal: Pick<CorrectionProposal, 'author' | 'account'>,
  { name, account }: { readonly name: string; readonly account: string | null },
): boolean =>
  proposal.account === null ? plain(name) === plain(proposal.author) : proposal.account === account

/** Numbers of other proposals that wait and are of a series of this one in some of the same time. */
export const overlappingProposals = (
  changes: readonly ProposedCorrection[],
  others: readonly StoredCorrection[],
): readonly number[] =>
  others
    .filter(
      ({ decision, changes: own }) =>
        decision === null && own.some((one) => changes.some((change) => isOverlapping(one, change))),
    )
    .map(({ number }) => number)

/** The sentence with which new versions are written, for whoever reads them later. */
export const reasonOfRecord = (
  { author, reason }: Pick<CorrectionProposal, 'author' | 'reason'>,
  { by, reason: checked }: Pick<CorrectionDecision, 'by' | 'reason'>,
): string => `${reason} (proposed by ${author}, approved by ${by}: ${checked})`

/** Said wherever a correction is offered or decided. */
export const rawStaysSentence =
  'Raw readings stay as they are: only how values are made of them changes, from the instant named on.'

const plain = (name: string): string => name.normalize('NFKC').trim().replaceAll(/\s+/g, ' ').toLowerCase()

import type { CorrectionProposal } from '../corrections/correction-proposal.ts'
import type { LevelProposal } from '../levels/level-proposal.ts'

/**
 * What is proposed by one person and decided by another. The word of a kind names its tables (`level_proposal`), its
 * addresses (`/level-proposals`) and its entries in the audit record (`level-proposal`), so it never changes.
 */
export interface ProposalsByKind {
  readonly level: LevelProposal
  readonly correction: CorrectionProposal
}

export type ProposalKind = keyof ProposalsByKind

const known: Readonly<Record<ProposalKind, true>> = { level: true, correction: true }
export const proposalKinds = Object.keys(known) as readonly ProposalKind[]

/** What the audit record calls a proposal of a kind. */
export const subjectOfProposal = (kind: ProposalKind): string => `${kind}-proposal`

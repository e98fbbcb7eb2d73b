import type { Proposal } from '../proposals/proposal.ts'
import type { LevelRemark } from './judge-level.ts'
import type { ProposedChange } from './level-change.ts'

/** A remark about one of a proposal's levels. */
export interface ProposalRemark extends LevelRemark {
  /** Id of the level that it is about; null: the proposal as a whole. */
  readonly level: string | null
}

/** Changes of trigger levels that a person proposed. */
export interface LevelProposal extends Proposal {
  readonly changes: readonly ProposedChange[]
  /** What spoke against it when it was proposed, for whoever decides. */
  readonly warnings: readonly ProposalRemark[]
}

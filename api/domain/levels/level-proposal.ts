import type { LevelRemark } from './judge-level.ts'
import type { ProposedChange } from './level-change.ts'

/** A remark about one of a proposal's levels. */
export interface ProposalRemark extends LevelRemark {
  /** Id of the level that it is about; null: the proposal as a whole. */
  readonly level: string | null
}

/** Changes of trigger levels that a person proposed. */
export interface LevelProposal {
  readonly author: string
  /** Id of the author's account; null: there were none, and the name was typed. */
  readonly account: string | null
  readonly reason: string
  readonly atEpochMs: number
  readonly changes: readonly ProposedChange[]
  /** What spoke against it when it was proposed, for whoever decides. */
  readonly warnings: readonly ProposalRemark[]
}

/** What a second person made of a proposal. It is final: another proposal may always follow. */
export interface LevelDecision {
  readonly kind: 'approved' | 'rejected'
  readonly by: string
  readonly account: string | null
  readonly reason: string
  readonly atEpochMs: number
}

/** A proposal as the store has it; without a decision it waits for one. */
export interface StoredProposal extends LevelProposal {
  /** 1, 2, 3 … at its site. */
  readonly number: number
  readonly decision: LevelDecision | null
}

/** Whether someone is another person than the author: by account where both have one, and by name in any case. */
export const isAnotherPerson = (
  author: Pick<LevelProposal, 'author' | 'account'>,
  { name, account }: { readonly name: string; readonly account: string | null },
): boolean =>
  plain(name) !== '' &&
  plain(name) !== plain(author.author) &&
  (author.account === null || account === null || author.account !== account)

const plain = (name: string): string => name.normalize('NFKC').trim().replaceAll(/\s+/g, ' ').toLowerCase()

import type { Decision, Kept } from '#domain/proposals/proposal.ts'
import type { ProposalKind, ProposalsByKind } from '#domain/proposals/proposal-kinds.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Signature } from './store.ts'

/** What one person proposed and another decides, of every kind; only ever added. */
export interface ProposalVerbs {
  /** Keeps a proposal; the answer is its number among those of its kind at the site. */
  addProposal<K extends ProposalKind>(site: string, kind: K, proposal: ProposalsByKind[K]): Promise<number>
  /** Every proposal of a kind with what became of it, by number. */
  listProposals<K extends ProposalKind>(site: string, kind: K): Promise<readonly Kept<ProposalsByKind[K]>[]>
  /**
   * Saves what `change` makes of the site's model, as `changeSite`, and that the proposal was approved, in one
   * transaction. One that does not wait for a decision is refused with `ProposalDecided` and nothing is changed; likewise
   * with `RevisionPassed` where the site is not at the revision that the approval was judged by, if one is given.
   */
  approveProposal(
    site: string,
    kind: ProposalKind,
    number: number,
    decision: Decision,
    change: (model: SiteModel) => SiteModel,
    signature: Signature,
    judgedByRevision?: number,
  ): Promise<{ changed: number }>
  /** Records that a proposal was rejected or withdrawn; refused with `ProposalDecided` where it does not wait. */
  closeProposal(site: string, kind: ProposalKind, number: number, decision: Decision): Promise<void>
}

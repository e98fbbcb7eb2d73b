import type {
  CorrectionDecision,
  CorrectionProposal,
  StoredCorrection,
} from '#domain/corrections/correction-proposal.ts'
import type { SiteModel } from '#domain/site/site.ts'
import type { Signature } from './store.ts'

/** Corrections offered for the record, and what became of them; only ever added. */
export interface CorrectionVerbs {
  /** Keeps a proposal; the answer is its number at the site. */
  addCorrectionProposal(site: string, proposal: CorrectionProposal): Promise<number>
  /** Every proposal with what became of it, by number. */
  listCorrectionProposals(site: string): Promise<readonly StoredCorrection[]>
  /**
   * Saves what `change` makes of the site's model, as `changeSite`, and that the proposal was approved, in one
   * transaction. One that does not wait for a decision is refused with `ProposalDecided` and nothing is changed.
   */
  approveCorrectionProposal(
    site: string,
    number: number,
    decision: CorrectionDecision,
    change: (model: SiteModel) => SiteModel,
    signature: Signature,
  ): Promise<{ changed: number }>
  /** Records that a proposal was rejected or withdrawn; refused with `ProposalDecided` where it does not wait. */
  closeCorrectionProposal(site: string, number: number, decision: CorrectionDecision): Promise<void>
}

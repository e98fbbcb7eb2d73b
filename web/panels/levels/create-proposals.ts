import type { LevelPreview, PreviewRequest, ProposalDraft } from '#contract/level-proposals.ts'
import type { LevelProposal } from '#domain/levels/level-proposal.ts'
import type { Kept } from '#domain/proposals/proposal.ts'
import { sendServer } from '../../state/ask-server.ts'
import { latestOnly } from '../../ui/latest-only.ts'
import { createProposalList } from '../proposals/create-proposal-list.ts'

/** Proposals for the levels of the open site, and what can be done with them. */
export function createProposals() {
  const proposals = createProposalList<Kept<LevelProposal>, ProposalDraft, { number: number }>('level')
  return {
    ...proposals,
    /** Undefined where a later one was asked for meanwhile. */
    preview: latestOnly((request: PreviewRequest, signal) =>
      sendServer<LevelPreview>(proposals.path('/preview'), request, signal),
    ),
  }
}

export type Proposals = ReturnType<typeof createProposals>

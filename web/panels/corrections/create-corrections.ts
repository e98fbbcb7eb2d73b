import type {
  CorrectionProposalDraft,
  CorrectionTaken,
  ListedCorrection,
} from '#contract/correction-proposals.ts'
import { createProposalList } from '../proposals/create-proposal-list.ts'

/** Corrections offered for the record of the open site, and what can be done with them. */
export const createCorrections = () =>
  createProposalList<ListedCorrection, CorrectionProposalDraft, CorrectionTaken>('correction')

export type Corrections = ReturnType<typeof createCorrections>

import { z } from 'zod'

export const nameOfSigner = z.string().max(200, 'at most 200 characters')
export const sentence = z.string().max(1000, 'at most 1000 characters')

/** Part of every proposal. `author` counts where nobody has an account. */
export const signedShape = { reason: sentence, author: nameOfSigner }

/** `POST …/:proposal/approval`, `…/rejection` and, of some kinds, `…/withdrawal`. `author` is who decides. */
export const decisionDraftSchema = z.strictObject(signedShape)

/** Last part of the address at which a proposal is decided, and what becomes of it. */
export const decisionParts = { approval: 'approved', rejection: 'rejected', withdrawal: 'withdrawn' } as const
export type DecisionPart = keyof typeof decisionParts

/** Who asks for proposals. */
export interface ProposalsAsked {
  /** Whether people have accounts here; if not, names are typed and nobody proves them. */
  readonly namesAreProven: boolean
  /** Whether whoever asks may decide, a proposal of another. */
  readonly mayDecide: boolean
  /** Under which name; null: by whatever is typed. */
  readonly signedInAs: string | null
  /** Account of whoever asks; null where nobody is signed in. */
  readonly account: string | null
}

/** `GET` of proposals of one kind, decided and not, by number. */
export interface ProposalList<P> extends ProposalsAsked {
  readonly proposals: readonly P[]
}

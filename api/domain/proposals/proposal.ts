import type { Outcome } from '../outcome.ts'
import type { SiteModel } from '../site/site.ts'

/** What one person proposes and a second person decides. Each kind adds what is to change. */
export interface Proposal {
  readonly author: string
  /** Id of the author's account; null: there were none, and the name was typed. */
  readonly account: string | null
  readonly reason: string
  readonly atEpochMs: number
}

/**
 * What became of a proposal: decided by a second person, or taken back by whoever made it. It is final: another proposal
 * may always follow.
 */
export interface Decision {
  readonly kind: 'approved' | 'rejected' | 'withdrawn'
  readonly by: string
  readonly account: string | null
  readonly reason: string
  readonly atEpochMs: number
}

/** A proposal as the store has it; without a decision it waits for one. */
export type Kept<P extends Proposal> = P & {
  /** 1, 2, 3 … among those of its kind at its site. */
  readonly number: number
  readonly decision: Decision | null
}

/**
 * The records of a site with what was proposed, judged again on what they are when it is decided: refused where they are
 * not any more what it was proposed on, or would not go together with it.
 */
export type Enact<P extends Proposal> = (
  model: SiteModel,
  proposal: Kept<P>,
  decision: Decision,
) => Outcome<SiteModel>

/** Whoever proposes or decides; null: nobody has an account, and the name is typed. */
export interface Person {
  readonly name: string
  readonly account: string | null
}

type Proposer = Pick<Proposal, 'author' | 'account'>

/** Whether someone is another person than the author: by account where both have one, and by name in any case. */
export const isAnotherPerson = (author: Proposer, { name, account }: Person): boolean =>
  plain(name) !== '' &&
  plain(name) !== plain(author.author) &&
  (author.account === null || account === null || author.account !== account)

/** Whether someone made a proposal: by account where it has one, else by the written name. */
export const isProposer = (proposal: Proposer, { name, account }: Person): boolean =>
  proposal.account === null ? plain(name) === plain(proposal.author) : proposal.account === account

/** Why someone may not decide a proposal so; null: nothing of the proposal hinders them. */
export function hindranceToDecide(
  proposal: Proposer & Pick<Kept<Proposal>, 'decision'>,
  kind: Decision['kind'],
  person: Person,
): 'not-its-proposer' | 'no-second-person' | 'decided' | null {
  if (kind === 'withdrawn' && !isProposer(proposal, person)) return 'not-its-proposer'
  if (kind !== 'withdrawn' && !isAnotherPerson(proposal, person)) return 'no-second-person'
  return proposal.decision === null ? null : 'decided'
}

/** The sentence with which records are written by an approval, for whoever reads them later. */
export const reasonOfRecord = (
  { author, reason }: Pick<Proposal, 'author' | 'reason'>,
  { by, reason: checked }: Pick<Decision, 'by' | 'reason'>,
): string => `${reason} (proposed by ${author}, approved by ${by}: ${checked})`

const plain = (name: string): string => name.normalize('NFKC').trim().replaceAll(/\s+/g, ' ').toLowerCase()

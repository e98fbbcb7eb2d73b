import type { Context } from 'hono'
import type { ProposalsAsked } from '#contract/proposals.ts'
import { mayAt } from '#domain/access/membership.ts'
import type { Action } from '#domain/access/permissions.ts'
import type { Issue } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import { problem } from './problem.ts'
import { signerAccount, signerName } from './signed-by.ts'

/** How a kind of proposal speaks of itself in refusals. */
export interface ProposalWords {
  /** Title of the refusal of a body that is wrong. */
  readonly notTaken: string
  /** `whoever … stands for it`. */
  readonly signing: string
}

/** Who signs a proposal or a decision and why, or the refusal where a part is missing. */
export function signatureOf(
  context: Context,
  draft: { readonly author: string; readonly reason: string },
  words: ProposalWords,
): Response | { readonly name: string; readonly account: string | null; readonly reason: string } {
  const name = signerName(context, draft.author).trim()
  const reason = draft.reason.trim()
  const issues: Issue[] = []
  if (name === '')
    issues.push({
      code: 'author-missing',
      column: 'author',
      message: `Write your name: whoever ${words.signing} stands for it.`,
    })
  issues.push(...reservedAuthor(name))
  if (reason === '')
    issues.push({
      code: 'reason-missing',
      column: 'reason',
      message: 'Write the reason: later readers must know why.',
    })
  return issues.length > 0
    ? refuseProposal(context, words, issues)
    : { name, account: signerAccount(context), reason }
}

/** Answers that nothing was kept or changed, and why. */
export const refuseProposal = (
  context: Context,
  { notTaken }: ProposalWords,
  issues: readonly Issue[],
): Response =>
  problem(context, 400, notTaken, 'Nothing was changed; what is wrong with it stands in issues.', issues)

/** Who asks for the proposals of a site, and whether they may decide what needs a permission. */
export function whoAsks(context: Context, toDecide: Action): ProposalsAsked {
  const account = context.get('caller')?.account
  return {
    namesAreProven: account !== undefined,
    mayDecide: account === undefined || mayAt(account.memberships, context.req.param('site') ?? '', toDecide),
    signedInAs: account?.name ?? null,
    account: account?.id ?? null,
  }
}

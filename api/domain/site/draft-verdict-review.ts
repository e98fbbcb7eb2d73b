import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { SiteModel } from './site.ts'
import type { VerdictReview } from './tables.ts'
import type { VerdictReviewOutcome } from './verdict-words.ts'

/** What came of looking at a verdict again, as a person enters it. */
export interface VerdictReviewDraft {
  /** Id of the verdict. */
  readonly verdict: string
  readonly outcome: VerdictReviewOutcome
  /** What in the data speaks against it, as it was shown. */
  readonly found: string
  readonly reason: string
  readonly author: string
}

/** The record that a draft becomes, or every reason why not. It changes nothing about the verdict, which holds on. */
export function nextVerdictReview(
  model: Pick<SiteModel, 'verdicts' | 'verdictWithdrawals' | 'verdictReviews'>,
  draft: VerdictReviewDraft,
  nowEpochMs: number,
): Outcome<VerdictReview> {
  const issues: Issue[] = []
  const empty = (column: 'found' | 'reason' | 'author', message: string) => {
    if (draft[column].trim() === '') issues.push({ code: `${column}-missing`, column, value: '', message })
  }
  empty('found', 'Nothing is named that speaks against the verdict. Say what in the data does.')
  empty('reason', 'No reason is given. Say why it is reopened or upheld, so that it can be judged later.')
  empty('author', 'Nobody is named who enters it. Write your name.')
  const taken = model.verdictWithdrawals.find(({ verdict }) => verdict === draft.verdict)
  if (!model.verdicts.some(({ id }) => id === draft.verdict))
    issues.push({
      code: 'verdict-unknown',
      column: 'verdict',
      value: draft.verdict,
      message: `There is no verdict ${draft.verdict} at this site. Choose one that is listed.`,
    })
  else if (taken)
    issues.push({
      code: 'withdrawn-already',
      column: 'verdict',
      value: draft.verdict,
      message: `${draft.verdict} was withdrawn by ${taken.author} and holds no longer. Enter a new verdict instead.`,
    })
  if (issues.length > 0) return reject(...issues)
  // Two of one verdict at one instant of a site whose present stands still keep their order.
  const before = model.verdictReviews.filter(({ verdict }) => verdict === draft.verdict).map(({ at }) => at)
  return accept({
    verdict: draft.verdict,
    at: Math.max(nowEpochMs, ...before.map((at) => at + 1)),
    outcome: draft.outcome,
    found: draft.found.trim(),
    reason: draft.reason.trim(),
    author: draft.author.trim(),
  })
}

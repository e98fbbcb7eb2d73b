import type { Context } from 'hono'
import type { Issue } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import { problem } from './problem.ts'

/** What is missing from the signature of a change of levels, or of a decision on one. */
export function unsignedIssues(author: string, reason: string): readonly Issue[] {
  const issues: Issue[] = []
  if (author === '')
    issues.push({
      code: 'author-missing',
      column: 'author',
      message: 'Write your name: whoever changes levels stands for it.',
    })
  issues.push(...reservedAuthor(author))
  if (reason === '')
    issues.push({
      code: 'reason-missing',
      column: 'reason',
      message: 'Write the reason: later readers must know why.',
    })
  return issues
}

/** Answers that nothing was changed, and why. */
export const refuseLevels = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Change of levels not understood',
    'Nothing was changed; what is wrong with it stands in issues.',
    issues,
  )

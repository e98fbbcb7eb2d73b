import type { Context } from 'hono'
import type { Issue } from '#domain/outcome.ts'
import { reservedAuthor } from '#domain/site/reserved-author.ts'
import { problem } from './problem.ts'

/** What is missing from the signature of a correction, or of a decision on one. */
export function unsignedCorrection(author: string, reason: string): readonly Issue[] {
  const issues: Issue[] = []
  if (author === '')
    issues.push({
      code: 'author-missing',
      column: 'author',
      message: 'Write your name: whoever corrects a record stands for it.',
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

/** Answers that nothing was kept or changed, and why. */
export const refuseCorrection = (context: Context, issues: readonly Issue[]) =>
  problem(
    context,
    400,
    'Correction not taken',
    'Nothing was changed; what is wrong with it stands in issues.',
    issues,
  )

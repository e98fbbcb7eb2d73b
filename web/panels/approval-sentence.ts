import type { StandingApproval } from '#domain/approval/approved-stretches.ts'
import { formatShortInstant } from '../ui/format-instant.ts'

/** How far an instrument's readings are approved, in a sentence. */
export function approvalSentence(own: readonly StandingApproval[], timeZone: string): string {
  const standing = own.filter(({ changedSince }) => !changedSince)
  if (standing.length === 0)
    return own.length === 0
      ? 'Nothing of it is approved: all its readings are provisional.'
      : 'What was approved has changed since: all its readings are provisional.'
  const last = Math.max(...standing.map(({ untilEpochMs }) => untilEpochMs))
  return `Looked through by a person up to ${formatShortInstant(last, timeZone)}, as listed; all other readings are provisional, and so are those that arrived after. Approved readings can still be wrong.`
}

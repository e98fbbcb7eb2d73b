import { z } from 'zod'
import type { ApprovalDraft, ApprovalWithdrawalDraft } from '#domain/approval/draft-approval.ts'

const instant = z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0))
const name = z.string().max(200, 'at most 200 characters')
const sentence = z.string().max(1000, 'at most 1000 characters')

/** `POST /api/sites/:site/approvals`: judged by `nextApprovals`; answered with the rows. */
export const approvalDraftSchema: z.ZodType<ApprovalDraft> = z.strictObject({
  instruments: z.array(z.string().min(1).max(200)).max(5000),
  fromEpochMs: instant,
  untilEpochMs: instant,
  statement: sentence,
  author: name,
  seenAtEpochMs: instant.optional(),
})

/** `POST /api/sites/:site/approvals/withdrawals`: takes an approval back; answered with the row. */
export const approvalWithdrawalSchema: z.ZodType<ApprovalWithdrawalDraft> = z.strictObject({
  approval: z.string().min(1).max(200),
  reason: sentence,
  author: name,
})

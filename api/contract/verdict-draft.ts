import { z } from 'zod'
import type { VerdictDraft, WithdrawalDraft } from '#domain/site/draft-verdict.ts'
import { verdicts } from '#domain/site/vocabulary.ts'

const instant = z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0))
const name = z.string().max(200, 'at most 200 characters')
const sentence = z.string().max(1000, 'at most 1000 characters')

/** `POST /api/sites/:site/verdicts`: what it says is judged by `nextVerdict`; answered with the row. */
export const verdictDraftSchema: z.ZodType<VerdictDraft> = z.strictObject({
  series: z.string().min(1).max(200),
  fromEpochMs: instant,
  untilEpochMs: instant.nullable(),
  verdict: z.enum(verdicts),
  reason: sentence,
  alternatives: sentence,
  author: name,
})

/** `POST /api/sites/:site/verdicts/withdrawals`: takes a verdict back; answered with the row. */
export const withdrawalDraftSchema: z.ZodType<WithdrawalDraft> = z.strictObject({
  verdict: z.string().min(1).max(200),
  reason: sentence,
  author: name,
})

import { z } from 'zod'
import { causes } from '#domain/review/cause.ts'
import { oddities } from '#domain/review/oddities.ts'
import type { VerdictDraft, WithdrawalDraft } from '#domain/site/draft-verdict.ts'
import type { VerdictReviewDraft } from '#domain/site/draft-verdict-review.ts'
import {
  verdictCauses,
  verdictConfidences,
  verdictEffects,
  verdictReviewOutcomes,
} from '#domain/site/verdict-words.ts'
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
  cause: z.enum(verdictCauses).nullable().optional(),
  confidence: z.enum(verdictConfidences).nullable().optional(),
  effects: z.array(z.enum(verdictEffects)).max(verdictEffects.length).optional(),
  evidence: z
    .strictObject({
      oddity: z.enum(oddities),
      fromEpochMs: instant,
      untilEpochMs: instant,
      rulesVersion: z.string().min(1).max(60),
      lines: z
        .array(
          z.strictObject({
            cause: z.enum(causes),
            rule: z.string().min(1).max(60),
            stands: z.enum(['for', 'against', 'missing']),
            decibans: z.number().min(-1000).max(1000),
            sentence: z.string().min(1).max(1000),
            figure: z
              .strictObject({
                value: z.number(),
                low: z.number().nullable(),
                high: z.number().nullable(),
                unit: z.string().max(40),
              })
              .nullable(),
          }),
        )
        .max(100),
    })
    .nullable()
    .optional(),
})

/** `POST /api/sites/:site/verdicts/withdrawals`: takes a verdict back; answered with the row. */
export const withdrawalDraftSchema: z.ZodType<WithdrawalDraft> = z.strictObject({
  verdict: z.string().min(1).max(200),
  reason: sentence,
  author: name,
})

/** `POST /api/sites/:site/verdicts/reviews`: a verdict looked at again, reopened or upheld; answered with the row. */
export const verdictReviewDraftSchema: z.ZodType<VerdictReviewDraft> = z.strictObject({
  verdict: z.string().min(1).max(200),
  outcome: z.enum(verdictReviewOutcomes),
  found: z.string().max(4000, 'at most 4000 characters'),
  reason: sentence,
  author: name,
})

import { z } from 'zod'
import type { SuppressionDraft, SuppressionEndDraft } from '#domain/suppression/draft-suppression.ts'

const name = z.string().max(200, 'at most 200 characters')
const sentence = z.string().max(1000, 'at most 1000 characters')

/** `POST /api/sites/:site/suppressions`: what it says is judged by `nextSuppression`; answered with the row. */
export const suppressionDraftSchema: z.ZodType<SuppressionDraft> = z.strictObject({
  covers: z.enum(['level', 'series', 'instrument', 'logger']),
  name: z.string().min(1).max(200),
  untilEpochMs: z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0)),
  reason: sentence,
  author: name,
})

/** `POST /api/sites/:site/suppressions/ends`: sending goes on from now; answered with the row. */
export const suppressionEndDraftSchema: z.ZodType<SuppressionEndDraft> = z.strictObject({
  suppression: z.string().min(1).max(200),
  reason: sentence,
  author: name,
})

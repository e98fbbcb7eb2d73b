import { z } from 'zod'
import type { AuditEntry } from '#domain/audit/audit-entry.ts'
import type { AuditVerification } from '#domain/audit/verification.ts'

/** Entries that one question gives at most. */
export const mostAuditEntries = 200

/**
 * `GET /api/sites/:site/audit` and, of the server, `GET /api/audit`: by kind and key of the subject (several keys where
 * given several times), by name of whoever did it, and only before an entry's number.
 */
export const auditQuestionSchema = z.strictObject({
  subjectKind: z.string().min(1).max(100).optional(),
  subjectKeys: z.array(z.string().max(400)).max(200),
  name: z.string().min(1).max(200).optional(),
  before: z.coerce.number().int().min(1).max(1e12).optional(),
  limit: z.coerce.number().int().min(1).max(mostAuditEntries).default(50),
})

export interface AuditPage {
  /** Newest first. */
  readonly entries: readonly AuditEntry[]
  /** There are older ones: ask with the last entry's number as `before`. */
  readonly more: boolean
  /** Kinds of subjects and names that occur at all, to choose from; null with a later page. */
  readonly choices: { readonly kinds: readonly string[]; readonly names: readonly string[] } | null
}

/** `GET /api/audit/verification`; `number` and `hash` together: an end that was noted elsewhere. */
export type AuditVerificationAnswer = AuditVerification

export const notedHeadSchema = z.strictObject({
  number: z.coerce.number().int().min(1).max(1e12),
  hash: z.string().regex(/^[0-9a-f]{64}$/),
})

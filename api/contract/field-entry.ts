import { z } from 'zod'
import type { Attachment, FieldEntry } from '#domain/field/field-entry.ts'
import { fieldBodySchema } from './field-bodies.ts'
import { problemSchema } from './problems.ts'

export const attachmentSchema: z.ZodType<Attachment> = z.strictObject({
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  bytes: z
    .int()
    .min(0)
    .max(2 ** 31),
  mediaType: z.string().regex(/^[\w.+-]+\/[\w.+-]+$/),
  name: z.string().min(1).max(200),
})

export const fieldEntrySchema: z.ZodType<FieldEntry> = z.strictObject({
  id: z.uuid(),
  site: z.string().min(1).max(200),
  follows: z.array(z.uuid()).max(50),
  body: fieldBodySchema,
  author: z.string().min(1, 'a name is needed').max(200),
  device: z.uuid(),
  sequence: z.int().min(1),
  writtenAtEpochMs: z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0)),
  clockAheadMs: z.number().nullable(),
  position: z
    .strictObject({
      eastingMetres: z.number(),
      northingMetres: z.number(),
      accuracyMetres: z.number().min(0),
    })
    .nullable(),
  attachments: z.array(attachmentSchema).max(20),
})

/**
 * `POST /api/sites/:site/field-entries` takes `{ entries }`, each judged by itself so that one that cannot be read
 * holds up no other.
 */
export const mostEntriesAtOnce = 100

/** What became of one entry that was sent, in the order sent. */
export const fieldResultSchema = z.object({
  id: z.string(),
  /**
   * `repeated`: the very same was here already. `differs`: another one has this id, both are kept.
   * `unreadable`: not stored; the device keeps it and shows why.
   */
  outcome: z.enum(['accepted', 'repeated', 'differs', 'unreadable']),
  issues: problemSchema.shape.issues,
  /** SHA-256 of attachments that have not arrived. */
  missingAttachments: z.array(z.string()),
})
export type FieldResult = z.infer<typeof fieldResultSchema>

export const fieldResultsSchema = z.object({
  results: z.array(fieldResultSchema),
  /** The server's clock, so that a device can tell how far its own is off. */
  serverEpochMs: z.number(),
})
export type FieldResults = z.infer<typeof fieldResultsSchema>

/** What the server did with what an entry says; null while it is not done. */
export const fieldEffectSchema = z.object({
  /** `taken`: readings or rows came of it. `kept`: it stands as written, nothing else comes of it yet. */
  outcome: z.enum(['taken', 'kept', 'refused']),
  sentence: z.string(),
  /** Batch of readings that it became. */
  batch: z.int().nullable(),
})
export type FieldEffect = z.infer<typeof fieldEffectSchema>

export interface StoredFieldEntry {
  readonly entry: FieldEntry
  /** 1, 2, 3 … in order of arrival at this site. */
  readonly number: number
  readonly receivedAtEpochMs: number
  /** True: it came with the id of another entry and stands beside it. */
  readonly differs: boolean
  /** Name of the account whose session delivered it, which may not be its author's; null where there were no accounts. */
  readonly sender: string | null
  readonly effect: FieldEffect | null
  readonly missingAttachments: readonly string[]
}

/** `GET /api/sites/:site/field-entries?after=n`: what arrived, or changed its effect, since that number. */
export interface FieldDocument {
  readonly site: string
  readonly entries: readonly StoredFieldEntry[]
  /** Ask after this next time. */
  readonly latest: number
  readonly serverEpochMs: number
}

import { z } from 'zod'
import { fieldResultSchema } from './field-entry.ts'

/**
 * Answer to `POST /api/sites/:site/receiver-records?name=…&author=…`, whose body is a CSV with the columns test,
 * spreading factor, received and signal (signal may be left out): an entry a test.
 */
export const receiverRecordsSchema = z.object({
  /** SHA-256 of the file, which is kept byte for byte as an attachment of its entries. */
  sha256: z.string(),
  records: z.array(
    z.object({
      test: z.string(),
      /** Id of the entry that holds it. */
      id: z.string(),
      outcome: fieldResultSchema.shape.outcome,
    }),
  ),
})
export type ReceiverRecords = z.infer<typeof receiverRecordsSchema>

import { z } from 'zod'
import { layoutSchema } from './layout.ts'

/** One of the first rows as it would be understood; `atEpochMs` null where the time cannot be read. */
export const previewRowSchema = z.object({
  line: z.int(),
  timeText: z.string(),
  atEpochMs: z.number().nullable(),
  readings: z.array(
    z.object({
      /** The registered logger's id, else the name as it stands in the file. */
      logger: z.string(),
      loggerKnown: z.boolean(),
      channel: z.string(),
      text: z.string(),
      /** Null where the cell is no number. */
      raw: z.number().nullable(),
    }),
  ),
})
export type PreviewRow = z.infer<typeof previewRowSchema>

/** What a first look at a file makes of it. Nothing is stored by looking. */
export const layoutProposalSchema = z.object({
  /** A layout to correct and declare; null when the file gives nothing to go by. Its id is not taken yet. */
  layout: layoutSchema.nullable(),
  /** Declared layouts that fit the file, the one that intake would choose first. */
  fits: z.array(z.object({ id: z.string(), version: z.int(), title: z.string() })),
  /** True when nothing in the file says which zone its times are in: `layout.time.zone` is then only an assumption. */
  zoneAssumed: z.boolean(),
  /** Column names as they stand in the names row; empty where there is none. */
  names: z.array(z.string()),
  preview: z.array(previewRowSchema),
  /** Every doubt, a sentence each. */
  doubts: z.array(z.string()),
  /** What was found, in one sentence. */
  summary: z.string(),
})
export type LayoutProposal = z.infer<typeof layoutProposalSchema>

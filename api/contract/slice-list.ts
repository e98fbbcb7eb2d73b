import { z } from 'zod'
import { resolutions } from './slice-columns.ts'

export const sliceSchema = z.object({
  resolution: z.enum(resolutions),
  /** `2027-03`, UTC. */
  month: z.string().regex(/^\d{4}-\d{2}$/),
  /** Immutable: a back-fill makes a new one. */
  url: z.string(),
  bytes: z.int(),
  rows: z.int(),
  sha256: z.string(),
  fromEpochMs: z.number(),
  /** Exclusive. */
  untilEpochMs: z.number(),
})
export type Slice = z.infer<typeof sliceSchema>

export const sliceListSchema = z.object({
  site: z.string(),
  revision: z.int(),
  slices: z.array(sliceSchema),
})
export type SliceList = z.infer<typeof sliceListSchema>

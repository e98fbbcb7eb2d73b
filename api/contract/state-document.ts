import { z } from 'zod'
import type * as domain from '#domain/levels/series-state.ts'

/**
 * State of one series at an instant.
 * `level`: 0 within levels, 1, 2 … reached; null where no trigger level is set or no value is known.
 * `late` stands beside it and is never hidden by it: a late value is not a current one.
 */
export const seriesStateSchema = z.object({
  series: z.int(),
  atEpochMs: z.number().nullable(),
  receivedAtEpochMs: z.number().nullable(),
  value: z.number().nullable(),
  quality: z.int(),
  /** Marks of the automatic checks on that value, two bits a check (`#domain/flags/reading-checks.ts`). */
  flags: z.int(),
  /** Share of its first trigger level used, 0 to …; null without a level or value. */
  shareOfFirstLevel: z.number().nullable(),
  level: z.int().nullable(),
  late: z.boolean(),
}) satisfies z.ZodType<domain.SeriesState>
export type SeriesState = z.infer<typeof seriesStateSchema>

/** `GET /api/sites/:site/state`: small, drawn before the engine is ready. */
export const stateDocumentSchema = z.object({
  site: z.string(),
  revision: z.int(),
  /** The instant that counts as the present here. */
  asOfEpochMs: z.number(),
  states: z.array(seriesStateSchema),
})
export type StateDocument = z.infer<typeof stateDocumentSchema>

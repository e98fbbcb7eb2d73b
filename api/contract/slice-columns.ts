import { z } from 'zod'

/**
 * Slices are read-only DuckDB files, one a resolution and month, sorted by series and time.
 * `api/slices/README.md` specifies them; this file is what both ends compile against.
 */
export const resolutions = ['raw', 'hour', 'day'] as const
export type Resolution = (typeof resolutions)[number]

/** Bits of the column `quality`, one set for both ends and for the reduction itself. */
export { quality } from '#domain/reduction/quality.ts'

/** Columns of view `value` in a raw slice, in order. `at` is a reserved word to DuckDB: quote it. */
export const rawColumns = {
  series: 'INTEGER',
  at: 'TIMESTAMP',
  value: 'DOUBLE',
  quality: 'UTINYINT',
  /**
   * Whole seconds from `at` to receipt, negative where a logger's clock runs fast;
   * null: received within the quarter of an hour after it was taken.
   */
  received_after_s: 'INTEGER',
} as const

/**
 * Columns of view `rollup` in an hour or day slice. `at` is the start of the UTC hour or day.
 * `last_at` is the instant of the last reading in it; `n` counts non-null values.
 */
export const rollupColumns = {
  series: 'INTEGER',
  at: 'TIMESTAMP',
  n: 'INTEGER',
  mean: 'DOUBLE',
  low: 'DOUBLE',
  high: 'DOUBLE',
  last: 'DOUBLE',
  last_at: 'TIMESTAMP',
  quality: 'UTINYINT',
} as const

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

/**
 * Slices are read-only DuckDB files, one a resolution and month, sorted by series and time.
 * `api/slices/README.md` specifies them; this file is what both ends compile against.
 */
export const resolutions = ['raw', 'hour', 'day'] as const
export type Resolution = (typeof resolutions)[number]

/** Columns of view `value` in a raw slice, in order. `at` is a reserved word to DuckDB: quote it. */
export const rawColumns = {
  series: 'INTEGER',
  at: 'TIMESTAMP',
  value: 'DOUBLE',
  /** Bits of `#domain/reduction/quality.ts`. */
  quality: 'UTINYINT',
  /**
   * Whole seconds from `at` to receipt, negative where a logger's clock runs fast;
   * null: received within the quarter of an hour after it was taken.
   */
  received_after_s: 'INTEGER',
  /** Marks of the automatic checks, bits of `#domain/flags/reading-checks.ts`; 0: none. */
  flags: 'USMALLINT',
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
  /** Union of those of its readings. */
  flags: 'USMALLINT',
} as const

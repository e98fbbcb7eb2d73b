import type { CheckedReading } from './checked-reading.ts'

/** One kind of check: the number it looks at, the same in SQL, and how it is said. */
export interface Check {
  /** What is held against the limits; null where it cannot be known, and the check is not evaluated. */
  measured(reading: CheckedReading): number | null
  /**
   * The same as SQL, operation by operation, over the columns at_us, value, received_after_s, before_us, before_value,
   * after_us, after_value, unchanged_since_us, due_since_us (BIGINT microseconds), duplicate_value, temperature_value.
   */
  readonly measuredSql: string
  /** Unit of the number; null: that of the series. */
  readonly unit: string | null
  /** What the number is, to stand before it in a sentence. */
  readonly says: string
  /** False where only limits above have a meaning. */
  readonly looksBelow: boolean
  /** Greatest limit that can be told from the readings looked back at; null: any. */
  readonly greatestLimit: number | null
}

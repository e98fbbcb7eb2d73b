import type { Resolution } from '#contract/slice-columns.ts'
import type { Parameter } from '#contract/write-literals.ts'

/** The slices a question reads: every one of a resolution that touches the window, both ends included. */
export interface SliceNeed {
  readonly resolution: Resolution
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  /**
   * True where the question asks for last values by time (`hour_last`, `day_last`) rather than for buckets by
   * series: the keeper then lays a copy in order of time beside the slice.
   */
  readonly byTime?: boolean
}

/** A question as plain data: SQL with `?` marks, their values in order, and the slices it reads. */
export interface Query {
  readonly sql: string
  readonly params: readonly Parameter[]
  readonly needs: readonly SliceNeed[]
  /** The same question of fewer slices, with the same columns: asked where this one cannot be answered. */
  readonly coarser?: Query
}

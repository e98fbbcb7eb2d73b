import type { Palette } from '../../ui/palettes.ts'
import type { RegisterColumn, RegisterOrder, RegisterRow } from './register-rows.ts'

export interface RegisterProps {
  /** In the order drawn. */
  readonly rows: readonly RegisterRow[]
  readonly order: RegisterOrder
  /** Series that are selected. */
  readonly selected: ReadonlySet<string>
  readonly levelNames: readonly string[]
  /** Instant that the ages of alerts are counted to. */
  readonly atEpochMs: number
  readonly palette: Palette
}

export interface RegisterCallbacks {
  select(row: RegisterRow): void
  sortBy(column: RegisterColumn): void
}

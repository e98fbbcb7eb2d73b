/** One setup of a level line and what became of the point ahead. */
export interface LevelLineSetup {
  readonly setup: number
  readonly behind: string
  readonly ahead: string
  readonly backsightMetres: number
  readonly foresightMetres: number
  readonly distanceMetres: number | null
  /** Of the point ahead, as read; null where the line was not worked out. */
  readonly reducedMetres: number | null
  readonly adjustedMetres: number | null
  /** Against the benchmarks, the closure allowed taken as two standard deviations of the whole line. */
  readonly standardUncertaintyMm: number | null
}

/** A line of a level book as it was taken, or why it was not. */
export interface LevelLineRecord {
  readonly line: string
  /** Whether its levels were taken. */
  readonly taken: boolean
  readonly sentence: string
  readonly setups: readonly LevelLineSetup[]
}

/** `GET /api/sites/:site/level-lines?sha256=…`: the lines of a kept level book, worked out again under its own layout. */
export interface LevelLineList {
  readonly lines: readonly LevelLineRecord[]
}

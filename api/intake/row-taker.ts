import type { LevelLineRecord } from '#contract/level-lines.ts'
import type { BatchWriter, Store } from '../store/store.ts'
import type { CellReader } from './cell-reader.ts'
import type { LoggerRegister } from './logger-register.ts'
import type { QuarantineLog } from './quarantine-log.ts'
import type { ReadingBlocks } from './reading-blocks.ts'
import type { ScannedRow } from './scanned-row.ts'
import type { WallInstant } from './zone-offsets.ts'

/** A row kept until it is known which pass of a repeated hour it belongs to. */
export interface HeldRow {
  readonly row: ScannedRow
  readonly wallMicros: number
  readonly firstMicros: number
  readonly secondMicros: number
  /** When it was received, as far as it says. */
  readonly receipt: WallInstant
}

/** One clock whose rows follow one another in the file: the whole of a wide file, one channel of a long one. */
export interface RowClock {
  lastWallMicros: number | null
  /** Wall time before the run that is being held. */
  beforeRunMicros: number | null
  run: HeldRow[]
}

export const freshClock = (): RowClock => ({ lastWallMicros: null, beforeRunMicros: null, run: [] })

/** What takers share for one file. */
export interface TakingContext {
  readonly site: string
  readonly store: Pick<Store, 'channelNumbers'>
  readonly register: LoggerRegister
  readonly cells: CellReader
  readonly log: QuarantineLog
  readonly blocks: ReadingBlocks
  readonly writer: BatchWriter
  /** Cells that said "no reading" so far. */
  absent: number
  /** What a taker has to say of the file in its receipt, such as how a level line closed. */
  readonly remarks: string[]
  /** Hears of every level line that is worked out. */
  readonly onLevelLine?: (line: LevelLineRecord) => void
}

/** Turns rows of one shape into readings, under one names row. */
export interface RowTaker {
  /** Columns a row must have. */
  readonly width: number
  /** False when a logger or channel is met for the first time: `await learn(row)` first. */
  knows(row: ScannedRow): boolean
  learn(row: ScannedRow): Promise<void>
  clockOf(row: ScannedRow): RowClock
  clocks(): Iterable<RowClock>
  /** Most readings that one row can give. */
  readonly mostReadings: number
  /** Takes the readings of a row; true when it held values and none of them could be read. */
  take(row: ScannedRow, atMicros: number, receivedMicros: number): boolean
  /** Readings that a row set aside as a whole stands for; counts its absent cells as absent. */
  countReadings(row: ScannedRow): number
  /** Value cells of a row whose columns cannot be trusted. */
  countCells(row: ScannedRow): number
  /** Writes one entry for every column or channel whose readings were held. */
  close(): void
}

/** A copy of a row that outlives the scanner's next step. */
export function copyRow(row: ScannedRow): ScannedRow {
  const shift = (offset: number) => offset - row.from
  return {
    ...row,
    bytes: row.bytes.slice(row.from, row.until),
    starts: row.starts.subarray(0, row.count).map(shift),
    ends: row.ends.subarray(0, row.count).map(shift),
    quoted: row.quoted.slice(0, row.count),
    from: 0,
    until: row.until - row.from,
  }
}

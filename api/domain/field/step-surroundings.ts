/** What a step is held against beside its own evidence. */
export interface StepSurroundings {
  readonly logger: string
  /** By the clock of the server. */
  readonly startedAtEpochMs: number
  /** Of this step's channel; left out for other steps. */
  readonly channel?: ChannelSurroundings
  /** Shortest interval of what is wired to the logger, minutes; null: nothing is wired. */
  readonly shortestIntervalMinutes: number | null
  /** Coverage tests known at the site and on this device, by number. */
  readonly coverageTests: ReadonlyMap<string, KnownCoverageTest>
  /** Latest beginning or end of a stage of the works; null: none yet. */
  readonly lastWorksChange: { readonly name: string; readonly atEpochMs: number } | null
  /** Latest reading of each channel that the server has, by channel; null: none. */
  readonly receipts: ReadonlyMap<string, ChannelReceipt | null>
  /** When the latest memory file of this logger that the server has was taken by cable; null: none. */
  readonly memoryTakenAtEpochMs: number | null
}

export interface ChannelSurroundings {
  /** Engineering unit. */
  readonly unit: string
  /** Of the engineering value. */
  readonly decimals: number
  /** Of the calibration in force, engineering unit; null: not known. */
  readonly standardUncertainty: number | null
  /** Engineering value of a raw reading; null where it has none. */
  readonly reduce: (raw: number) => number | null
}

/** A coverage test as far as this device knows it. */
export interface KnownCoverageTest {
  /** By the trade's rule; null: its result is not known yet. */
  readonly accepted: boolean | null
  /** Whether its interval lies wholly at one half or above. */
  readonly certainOfHalf: boolean
  /** Logger that stood there; null: the test names none. */
  readonly logger: string | null
  readonly atEpochMs: number
  /** Two people wrote it, or its receiver's record, without knowing of each other. */
  readonly disputed: boolean
  /** The server did not take it as it was written. */
  readonly refused: boolean
  /** Whole sentences that stand beside the verdict. */
  readonly cautions: readonly string[]
}

export interface ChannelReceipt {
  /** By the logger's clock. */
  readonly atEpochMs: number
  readonly receivedAtEpochMs: number
}

/** What speaks against a step, and what must be said although it passes; whole sentences. */
export interface Findings {
  readonly against: readonly string[]
  readonly remarks: readonly string[]
}

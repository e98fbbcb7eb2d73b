import type { Resolution } from '#contract/slice-columns.ts'
import type { ApprovedStretch } from '#domain/approval/approved-stretches.ts'
import type { CheckLimit, Verdict } from '#domain/site/tables.ts'

/** One series' readings or buckets in a window, in order of time. NaN: read, but without a value. */
export interface HistoryTrace {
  readonly series: number
  readonly resolution: Resolution
  readonly atEpochMs: Float64Array
  /** Of an hour or day the instant of its last reading with a value; left out: as `atEpochMs`. */
  readonly lastAtEpochMs?: Float64Array
  readonly value: Float64Array
  readonly low: Float64Array
  readonly high: Float64Array
  /** Readings with a value in each row; 0 or 1 at raw resolution. */
  readonly count: Float64Array
  /** Bits of `quality` of the slice contract. */
  readonly quality: Float64Array
  /** From its instant to receipt; NaN: within a quarter of an hour. Left out: not known, as of hours and days. */
  readonly receivedAfterSeconds?: Float64Array
  /** Marks of the automatic checks (`marksOf`); of a bucket, those of all its readings. */
  readonly flags: Float64Array
}

/** What of a series came in after an instant, with when it came. */
export interface LaterTrace extends HistoryTrace {
  readonly firstReceivedEpochMs: number
  readonly lastReceivedEpochMs: number
}

export interface HistoryLevel {
  /** 1 for the first, 2 for the next … */
  readonly level: number
  readonly name: string
  readonly value: number
  readonly direction: 'above' | 'below' | 'either'
  readonly validFromEpochMs: number
  readonly validUntilEpochMs: number | null
}

/** What the design expects by the end of a stage, in the unit of the series. */
export interface HistoryExpected {
  readonly atEpochMs: number
  readonly low: number
  readonly high: number
  readonly sentence: string
}

/** What is expected between two instants, in the unit of the series. */
export interface HistoryBand {
  readonly fromEpochMs: number
  /** Null: no end is known. */
  readonly untilEpochMs: number | null
  readonly low: number
  readonly high: number
  readonly stage: string
}

export interface HistorySeries {
  readonly series: number
  /** Measuring point, and the measure where one name is not enough. */
  readonly name: string
  /** What is measured, as a heading: series of one measure and unit share a pane. */
  readonly measure: string
  /** Heading of the pane that it is drawn in; left out: that of its measure, with all others of it. */
  readonly pane?: string
  readonly unit: string
  readonly decimals: number
  readonly intervalMinutes: number
  readonly levels: readonly HistoryLevel[]
  /** By the ends of stages; left out where nothing is stated. */
  readonly expected?: readonly HistoryExpected[]
  /** What the design lets expect stage by stage, in order of time; left out or empty: nothing is stated. */
  readonly envelope?: readonly HistoryBand[]
  /** Limits that marks of its readings are told with; null: it is made from others, which were checked. */
  readonly checkLimits: readonly CheckLimit[] | null
  /** A reading received later than this after it was taken bears the mark of it. */
  readonly lateAfterMinutes?: number
  /** Stretches of it that somebody stands for, in order of time; all else is provisional. Left out: not told. */
  readonly approved?: readonly ApprovedStretch[]
  /** What people found about it. */
  readonly verdicts: readonly Verdict[]
  /** Earlier series drawn on its level, latest first; left out where it carries on from none, or they are not wanted. */
  readonly joined?: readonly HistoryJoined[]
}

/** A stretch of an earlier series that another carries on from; `joined-history.ts` puts it on that one's level. */
export interface HistoryJoined {
  readonly series: HistorySeries
  /** It stands from here on, inclusive; null: from its beginning. */
  readonly fromEpochMs: number | null
  /** Up to the join, exclusive. */
  readonly untilEpochMs: number
  /** Added to its values, in the unit of both. */
  readonly shift: number
  /** Of the values as they are drawn: their own and that of all joins between; null where their own is not known. */
  readonly standardUncertainty: number | null
  /** Stands at the join. */
  readonly label: string
  /** The whole of it, for the words below. */
  readonly sentence: string
}

export interface HistoryHold {
  readonly series: number
  readonly sentence: string
  readonly value: number
  /** Start of the stage that may not begin before. */
  readonly untilEpochMs: number
}

export interface HistoryStage {
  readonly name: string
  readonly fromEpochMs: number
  readonly untilEpochMs: number | null
}

export interface HistoryDiaryEntry {
  readonly atEpochMs: number
  readonly text: string
}

export interface HistoryCompanion {
  readonly series: HistorySeries
  /** Rain falls in an interval, so it is drawn as bars; the rest are lines. */
  readonly drawnAs: 'line' | 'bars'
}

/** Everything that the view over time shows. All instants are UTC epoch milliseconds. */
export interface TimeHistoryProps {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  readonly clockEpochMs: number | null
  /** First and last instant there is anything of; the window stays within. */
  readonly spanEpochMs: readonly [from: number, until: number]
  readonly timeZone: string
  readonly series: readonly HistorySeries[]
  readonly companions: readonly HistoryCompanion[]
  readonly traces: readonly HistoryTrace[]
  /** Readings that had not been received by the clock, drawn apart from `traces`, which then hold what had. Left out: not told. */
  readonly later?: readonly LaterTrace[]
  readonly holds: readonly HistoryHold[]
  readonly stages: readonly HistoryStage[]
  readonly diary: readonly HistoryDiaryEntry[]
  /** Whole sentences on what is still awaited or missing: engine, months, network. */
  readonly remarks: readonly string[]
  /** True while readings for this window are asked for. */
  readonly waiting: boolean
  /** True while dragging, by mouse or finger, chooses a stretch in place of moving the window. */
  readonly choosing?: boolean
  /** A stretch that is being proposed for something, drawn over the panes with its series. */
  readonly proposed?: HistoryStretch | null
}

/** From inclusive, until exclusive. */
export interface HistoryStretch {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
}

export interface TimeHistoryEvents {
  readonly onClock: (atEpochMs: number) => void
  readonly onWindow: (fromEpochMs: number, untilEpochMs: number) => void
  /** A stretch was dragged out while `choosing`. */
  readonly onStretch?: (stretch: HistoryStretch) => void
}

import type { EnvelopeSpan } from '../levels/prediction-envelope.ts'
import type { Measure } from '../site/vocabulary.ts'

/** Readings of one series in a stretch, in order of time, those without a value left out. */
export interface Trace {
  /** point/measure */
  readonly series: string
  readonly point: string
  readonly measure: Measure
  readonly unit: string
  readonly intervalMinutes: number
  /** Of a value; null: not known. */
  readonly standardUncertainty: number | null
  /** The share of it that does not cancel in a change from one reading to another; null: not known. */
  readonly repeatability: number | null
  readonly atEpochMs: readonly number[]
  readonly values: readonly number[]
}

/** Readings of another series and how it stands to the one reviewed. */
export interface Neighbour extends Trace {
  readonly distanceMetres: number
  /** Its level above that of the point reviewed. */
  readonly aboveMetres: number
  /** True where both measure in the same layer, or neither in any. */
  readonly sameStratum: boolean
}

/** What may drive a reading from outside. */
export interface Driver extends Trace {
  readonly kind:
    | 'own-temperature'
    | 'nearby-temperature'
    | 'air-temperature'
    | 'air-pressure'
    | 'tide'
    | 'rain'
}

/** Something dated that people did or noted. */
export interface DatedNote {
  readonly kind: 'wiring' | 'calibration' | 'zero' | 'visit' | 'damage' | 'works' | 'diary'
  readonly atEpochMs: number
  readonly text: string
  /** From the point; null: not tied to a place. */
  readonly distanceMetres: number | null
}

/** How the logger and its link did in the stretch. */
export interface LoggerRecord {
  readonly logger: string
  /** Readings that were due, that came in time, and that came later than the series may be late. */
  readonly due: number
  readonly inTime: number
  readonly later: number
  /** Longest time in which nothing had arrived, as it was known then; null: less than two intervals. */
  readonly longestSilence: { readonly fromEpochMs: number; readonly untilEpochMs: number } | null
  /** What its clock gains, and its 95 % interval; null: not told by receipts. */
  readonly clockSecondsPerDay: { readonly value: number; readonly low: number; readonly high: number } | null
  /** Volts when they were last read in the stretch, and the least that the logger works with; null: not measured. */
  readonly battery: {
    readonly volts: number
    readonly atEpochMs: number
    readonly leastVolts: number
    /** point/measure of the voltage; left out: not named. */
    readonly series?: string
  } | null
  /** Loggers beside it that went silent in the same stretch, and of how many that is known. */
  readonly silentBeside: {
    readonly silent: number
    readonly of: number
    /** Those that went silent; left out: not named. */
    readonly loggers?: readonly string[]
  }
}

/** A verdict on another series that holds in some of the stretch. */
export interface FoundBeside {
  readonly series: string
  readonly verdict: 'doubtful' | 'rejected'
  readonly fromEpochMs: number
  readonly author: string
}

/** One reading of the subject that is asked about by itself. */
export interface SingleReading {
  readonly atEpochMs: number
  /** Marks of the automatic checks (`marksOf`). */
  readonly flags: number
  /** Read and written down by a person. */
  readonly byHand: boolean
  /** As it was read, with the reading before it as read and as a value; null: not known. */
  readonly raw: {
    readonly raw: number
    readonly before: { readonly raw: number; readonly value: number }
  } | null
}

/** Everything that is looked at: as it is known at the end of the stretch, nothing later. */
export interface ReviewCase {
  readonly fromEpochMs: number
  readonly untilEpochMs: number
  /** Of the site, in which days are named. */
  readonly timeZone: string
  readonly subject: Trace
  /** How late its readings may come. */
  readonly lateAfterMinutes: number
  /** From then on nothing of it is due; null: it was in use to the end of the stretch. */
  readonly outOfUseSinceEpochMs: number | null
  /** Least step of a value, and the range of its transducer; null: not stated. */
  readonly resolution: number | null
  readonly range: { readonly low: number; readonly high: number } | null
  /** The same quantity elsewhere, nearest first. */
  readonly same: readonly Neighbour[]
  /** Other quantities that a movement of the ground here would show in, nearest first. */
  readonly other: readonly Neighbour[]
  /** Other series of its logger. */
  readonly ofLogger: readonly Trace[]
  readonly drivers: readonly Driver[]
  /** Readings taken by hand of the same quantity here or beside. */
  readonly byHand: readonly Neighbour[]
  /** Checksums of a traversed inclinometer, a series for every depth and pair of faces. */
  readonly checksums: readonly Trace[]
  /** Of a pressure sensor: true where the air pressure stands in its values; null: not stated, or no pressure. */
  readonly airStandsInValues: boolean | null
  readonly logger: LoggerRecord | null
  /** False where nothing is known of loggers and links, so that nothing found about them means nothing. */
  readonly networkKnown: boolean
  /** What people found about readings that it is held against; those that were rejected are left out. */
  readonly foundBeside: readonly FoundBeside[]
  readonly notes: readonly DatedNote[]
  /** What the design expects of it, stage by stage; empty: nothing is predicted; left out: not looked at. */
  readonly expected?: readonly EnvelopeSpan[]
  /** The reading that is asked about by itself; left out or null: none is. */
  readonly reading?: SingleReading | null
}

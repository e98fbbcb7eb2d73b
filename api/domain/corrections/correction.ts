import type { ClockSetting } from '../reduction/logger-clock.ts'
import type { ZeroReading as ZeroRow } from '../site/tables.ts'
import type { StepKind } from '../site/vocabulary.ts'
import type { ZeroReading } from '../what-if/sandbox-change.ts'

/** A step of a chain as a calibration's row has it: `name=value` pairs, semicolons between. */
export interface StepText {
  readonly kind: StepKind
  readonly parameters: string
}

/** A channel of a logger. */
export interface Terminal {
  readonly logger: string
  readonly channel: string
}

/** A zero by a reading or by the mean of readings, and the value there, in the unit of the series. */
export interface ZeroFrom {
  readonly zero: Exclude<ZeroReading, { by: 'raw' }>
  readonly reads: number
}

/** A reading of `zero-readings.csv` without its calibration and its author. */
export type TakenZero = Pick<ZeroRow, 'at' | 'raw' | 'temperatureDegC' | 'barometerKpa'>

/** What is added to stamps where it begins, and further for each day after. */
export type ClockText = Pick<ClockSetting, 'addedSeconds' | 'addedSecondsPerDay'>

interface Dated {
  /** Sensor, point/measure. */
  readonly series: string
  /** Inclusive, by the instants at which readings stand; of a clock by the stamps that its logger sent. */
  readonly fromEpochMs: number
  /** Exclusive; null: for good. */
  readonly untilEpochMs: number | null
}

/**
 * What somebody found in a sandbox, as a dated record could have it: what was in force there when it was tried, and what is to
 * be in its place.
 */
export type CorrectionDraft = Dated &
  (
    | {
        /** Another chain: a number, a zero, a share of the air, a thermal term, an offset. */
        readonly kind: 'calibration'
        readonly was: readonly StepText[]
        readonly steps: readonly StepText[]
        /** Readings that its zero was taken from, and what they are to give; left out: the zero rests on none. */
        readonly zeroFrom?: ZeroFrom
      }
    | {
        /** Another channel that it is read by. */
        readonly kind: 'wiring'
        readonly was: Terminal
        readonly reads: Terminal
      }
    | {
        /** Another barometer that it is corrected by; null: none was named. */
        readonly kind: 'barometer'
        readonly was: string | null
        readonly barometer: string
      }
    | {
        /** Another clock of the logger that it is read by, and so of whatever that logger reads. */
        readonly kind: 'clock'
        readonly logger: string
        readonly was: ClockText
        readonly clock: ClockText
      }
  )

/** What of a record a correction changes; a zero, a share of the air and a thermal term are steps of a calibration. */
export type CorrectionName =
  | 'calibration'
  | 'zero'
  | 'air-share'
  | 'thermal-term'
  | 'wiring'
  | 'barometer'
  | 'clock'

export const correctionNames: Readonly<Record<CorrectionName, string>> = {
  calibration: 'Calibration',
  zero: 'Zero or offset',
  'air-share': 'Share of the air',
  'thermal-term': 'Thermal term',
  wiring: 'Wiring',
  barometer: 'Barometer',
  clock: 'Clock of the logger',
}

/** A draft held against the records: what it stands in the place of, and both in words. */
export type ProposedCorrection = CorrectionDraft & {
  readonly name: CorrectionName
  /** Id of the calibration in force when it begins; of a wiring the channel, of a barometer its series, of a clock the logger. */
  readonly replaces: string
  /** What is recorded and what is proposed, whole sentences. */
  readonly before: string
  readonly after: string
  /** The readings that its zero was taken from, as they were on record when it was offered; left out: none. */
  readonly zeroReadings?: readonly TakenZero[]
  /** Series of the barometer by which these had their values; left out: the chain asks for none. */
  readonly zeroBarometer?: string
  /** Series whose readings stand at another instant, made ones among them; left out of all but clocks. */
  readonly moves?: readonly string[]
}

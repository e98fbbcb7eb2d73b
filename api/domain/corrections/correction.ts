import type { StepKind } from '../site/vocabulary.ts'

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

interface Dated {
  /** Sensor, point/measure. */
  readonly series: string
  /** Inclusive, by the stamps of readings as they are kept. */
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
      }
    | {
        /** Another channel that it is read by. */
        readonly kind: 'wiring'
        readonly was: Terminal
        readonly reads: Terminal
      }
  )

/** What of a record a correction changes; a zero, a share of the air and a thermal term are steps of a calibration. */
export type CorrectionName = 'calibration' | 'zero' | 'air-share' | 'thermal-term' | 'wiring'

export const correctionNames: Readonly<Record<CorrectionName, string>> = {
  calibration: 'Calibration',
  zero: 'Zero or offset',
  'air-share': 'Share of the air',
  'thermal-term': 'Thermal term',
  wiring: 'Wiring',
}

/** A draft held against the records: what it stands in the place of, and both in words. */
export type ProposedCorrection = CorrectionDraft & {
  readonly name: CorrectionName
  /** Id of the calibration in force when it begins; of a wiring the channel. */
  readonly replaces: string
  /** What is recorded and what is proposed, whole sentences. */
  readonly before: string
  readonly after: string
}

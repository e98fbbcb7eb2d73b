import type { Calibration } from '#domain/reduction/chain.ts'
import type { Measure } from '#domain/site/vocabulary.ts'

/** What a person along the works must know of a sensor to read it, and to see at once whether a reading can be. */
export interface GuidedSensor {
  /** point/measure */
  readonly id: string
  readonly point: string
  readonly instrument: string
  readonly measure: Measure
  readonly serial: string | null
  readonly rawUnit: string
  readonly unit: string
  readonly decimals: number
  readonly rangeLow: number | null
  readonly rangeHigh: number | null
  readonly intervalMinutes: number
  /** Null: not wired now. */
  readonly wiring: { readonly logger: string; readonly channel: string } | null
  /** Read by a person, not by a logger. */
  readonly byHand: boolean
  /** Calibration in force at the guide's instant; null: none, so a raw reading has no engineering value. */
  readonly calibration: Calibration | null
  readonly certificateDueAtEpochMs: number | null
}

/** `GET /api/sites/:site/field-guide`: kept on the device, so that readings can be judged without a network. */
export interface FieldGuide {
  readonly site: string
  readonly asOfEpochMs: number
  readonly sensors: readonly GuidedSensor[]
}

import { z } from 'zod'
import type { LevelCaution } from '#domain/baseline/levels-inside-noise.ts'
import type { CalibrationDraft } from '#domain/reduction/draft-calibration.ts'
import type {
  CalibrationRow,
  CalibrationStepRow,
  LoggerClock,
  Sensor,
  SeriesJoin,
} from '#domain/site/tables.ts'
import { stepKinds } from '#domain/site/vocabulary.ts'

const instant = z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0))

/** A calibration as a person proposes it; what it says is judged by `nextCalibration`. */
export const calibrationDraftSchema: z.ZodType<CalibrationDraft> = z.strictObject({
  sensor: z.string().min(1).max(200),
  follows: z.int().min(0),
  validFromEpochMs: instant,
  certificate: z.string().max(200).nullable(),
  calibratedAtEpochMs: instant.nullable(),
  dueAtEpochMs: instant.nullable(),
  standardUncertainty: z.number(),
  steps: z.array(z.strictObject({ kind: z.enum(stepKinds), parameters: z.string().max(1000) })).max(20),
  author: z.string().max(200),
  reason: z.string().max(1000),
})

/** One version with its steps, and when it was entered. */
export interface CalibrationVersion {
  readonly row: CalibrationRow
  readonly stepRows: readonly CalibrationStepRow[]
  readonly recordedAtEpochMs: number
  /** What its zero readings say, in words; null where it is never in force. */
  readonly baselineSentence: string | null
}

/** `GET /api/sites/:site/calibrations?sensor=…`: every version of one sensor, oldest first. */
export interface CalibrationList {
  readonly sensor: string
  readonly rawUnit: string
  readonly unit: string
  /** Whether the sensor breathes; null: not on record. */
  readonly venting: NonNullable<Sensor['venting']> | null
  /** Barometers that correct it, in order of time; the first, named with the sensor, has no instant. */
  readonly barometers: readonly {
    readonly barometer: string | null
    readonly fromEpochMs: number | null
    /** Who entered it and why; null of the first. */
    readonly entered: { readonly author: string; readonly reason: string } | null
  }[]
  /** Of loggers that ever read it, in order of time; left out: none is on record. */
  readonly clocks?: readonly LoggerClock[]
  readonly versions: readonly CalibrationVersion[]
  /** Trigger levels of the sensor that lie inside the smallest detectable change. */
  readonly levelCautions: readonly LevelCaution[]
  /** How its series carries on from another, or another from it. */
  readonly joins: readonly SeriesJoin[]
}

import type { StepKind } from '../site/vocabulary.ts'

/** Parameters of a step: numbers, and texts such as units and companion names. */
export type StepParameters = Readonly<Record<string, number | string>>

export interface CalibrationStep {
  readonly kind: StepKind
  readonly parameters: StepParameters
}

/**
 * One dated version of how a sensor is reduced; in force from `validFromEpochMs` until the next one begins.
 * Of two that begin together the higher version holds: that is how a past mistake is put right.
 */
export interface Calibration {
  readonly id: string
  readonly sensor: string
  readonly version: number
  readonly validFromEpochMs: number
  readonly certificate: string | null
  readonly standardUncertainty: number
  readonly steps: readonly CalibrationStep[]
}

/** What a step may need beside the reading, at the same instant. Null: not known then. */
export interface Companions {
  /** degC */
  readonly temperatureDegC: number | null
  /** kPa, station pressure at the site barometer */
  readonly barometerKpa: number | null
}

import type { CalibrationList, CalibrationVersion } from '#contract/calibration-draft.ts'
import type { StepKind } from '#domain/site/vocabulary.ts'
import { presentEpochMs } from '../state/small-site.ts'

/** A version in force since half a year before the present, with one step and a zero. */
export function versionOf(
  version: number,
  kind: StepKind | null,
  parameters: string,
  validFrom = presentEpochMs - 180 * 86_400_000,
): CalibrationVersion {
  const id = `C-1/${version}`
  const step = (number: number, of: StepKind, words: string) => ({
    calibration: id,
    step: number,
    kind: of,
    parameters: words,
  })
  return {
    row: {
      id,
      sensor: 'PZ-1A/pore-pressure',
      version,
      validFrom,
      certificate: null,
      calibratedAt: null,
      dueAt: null,
      standardUncertainty: 0.1,
      author: 'Engineer',
      reason: 'first',
    },
    stepRows: [...(kind ? [step(1, kind, parameters)] : []), step(2, 'zero', 'value=3')],
    recordedAtEpochMs: validFrom,
    baselineSentence: null,
  }
}

/** The calibrations of the first tip of the small site, one version with one step and a zero. */
export const listOf = (kind: StepKind | null, parameters: string): CalibrationList => ({
  sensor: 'PZ-1A/pore-pressure',
  rawUnit: 'kPa',
  unit: 'kPa',
  venting: null,
  barometers: [{ barometer: 'BA-1/barometric-pressure', fromEpochMs: null, entered: null }],
  versions: [versionOf(1, kind, parameters)],
  levelCautions: [],
  joins: [],
})

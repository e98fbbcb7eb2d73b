import type { GuidedSensor } from '#contract/field-guide.ts'
import { type Doubt, type EarlierValue, readingDoubts } from '#domain/field/reading-doubts.ts'
import { qualitySentences } from '#domain/reduction/quality.ts'
import { reduceValue } from '#domain/reduction/reduce-value.ts'

/** What a raw reading is in engineering terms, and what speaks for looking again. */
export interface JudgedReading {
  readonly value: number | null
  /** Why there is no value, or what is doubtful in the reduction. */
  readonly remarks: readonly string[]
  readonly doubts: readonly Doubt[]
}

const noCompanions = { temperatureDegC: null, barometerKpa: null }

/** Reduces a typed reading by the calibration in force and holds it against earlier values and what the design expects. */
export function judgeReading(
  sensor: GuidedSensor,
  raw: number,
  atEpochMs: number,
  earlier: readonly EarlierValue[],
  predicted: { readonly low: number; readonly high: number } | null,
): JudgedReading {
  const steps = sensor.calibration?.steps ?? null
  const reducedTo = (of: number) => (steps === null ? null : reduceValue(of, steps, noCompanions).value)
  const reduced = steps === null ? null : reduceValue(raw, steps, noCompanions)
  const remarks =
    reduced === null
      ? ['No calibration is in force: the raw reading is kept, a value comes when there is one.']
      : qualitySentences(reduced.quality)
  // Without a calibration the raw number itself can only be held against nothing.
  if (reduced === null) return { value: null, remarks, doubts: [] }
  return {
    value: reduced.value,
    remarks,
    doubts: readingDoubts({
      atEpochMs,
      value: reduced.value,
      unit: sensor.unit,
      decimals: sensor.decimals,
      rangeLow: sensor.rangeLow,
      rangeHigh: sensor.rangeHigh,
      earlier,
      tenfold: [
        { factor: 10, value: reducedTo(raw * 10) },
        { factor: 0.1, value: reducedTo(raw / 10) },
      ],
      predicted,
    }),
  }
}

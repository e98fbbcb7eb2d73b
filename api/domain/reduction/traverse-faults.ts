import {
  biasShiftShape,
  depthShape,
  type ErrorShape,
  errorOf,
  type FoundError,
  findSurveyError,
  rotationShape,
} from './survey-errors.ts'

/** What the systematic faults of a traverse are told from, one entry an interval, from the top down. */
export interface TraverseEvidence {
  readonly zeroDeviationsMm: readonly number[]
  readonly lengthsMetres: readonly number[]
  /** Intervals taken to stand still, from 0. */
  readonly still: readonly number[]
  /** Deviation less that of the zero survey, mm; null where a face was not read. */
  readonly changesMm: readonly (number | null)[]
  /** Deviations along the other axis, mm; null where they are not all known, and no rotation is told. */
  readonly crossDeviationsMm: readonly number[] | null
}

/** A fault that would explain what the still intervals show, reckoned alone. */
export interface TraverseFault extends FoundError {
  readonly kind: ErrorShape['kind']
  readonly unit: ErrorShape['unit']
  /** What it makes of the deviation of each interval, mm, from the top down. */
  readonly perIntervalMm: readonly number[]
  /** The same added up over the casing. */
  readonly wholeMm: number
}

/** Faults that can be told from the still intervals, each as if it were the only one. */
export function traverseFaults(evidence: TraverseEvidence): readonly TraverseFault[] {
  const { changesMm, still, crossDeviationsMm, zeroDeviationsMm } = evidence
  const shapes = [
    biasShiftShape(zeroDeviationsMm.length),
    ...(crossDeviationsMm === null ? [] : [rotationShape(crossDeviationsMm)]),
    depthShape(sinesAtEnds(evidence)),
  ]
  return shapes.flatMap((shape) => {
    const found = findSurveyError(shape, changesMm, still)
    if (!found.ok) return []
    const perIntervalMm = errorOf(shape, found.value.size)
    const wholeMm = perIntervalMm.reduce((sum, error) => sum + error, 0)
    return [{ ...found.value, kind: shape.kind, unit: shape.unit, perIntervalMm, wholeMm }]
  })
}

/** Sine of the casing's lean at the ends of its intervals, by its zero survey: the mean of the two that meet there. */
function sinesAtEnds({
  zeroDeviationsMm,
  lengthsMetres,
}: Pick<TraverseEvidence, 'zeroDeviationsMm' | 'lengthsMetres'>): readonly number[] {
  const sines = zeroDeviationsMm.map(
    (deviation, interval) => deviation / 1000 / (lengthsMetres[interval] ?? 1),
  )
  const last = sines.length - 1
  return Array.from({ length: sines.length + 1 }, (_, end) => {
    const [above, below] = [sines[Math.max(0, end - 1)] ?? 0, sines[Math.min(last, end)] ?? 0]
    return (above + below) / 2
  })
}

import { accept, type Outcome, reject } from '../outcome.ts'

/** What a systematic fault of one traverse adds to the change of deviation of each interval, mm, for one unit of it. */
export interface ErrorShape {
  readonly kind: 'bias-shift' | 'rotation' | 'depth'
  /** Unit of the fault: mm over an interval, radians, mm of depth. */
  readonly unit: 'mm' | 'rad'
  /** From the top down. */
  readonly perInterval: readonly number[]
}

/** Bias that changed between the two passes of a traverse by 2 mm over an interval: 1 mm at every interval. */
export const biasShiftShape = (intervals: number): ErrorShape => ({
  kind: 'bias-shift',
  unit: 'mm',
  perInterval: Array.from({ length: intervals }, () => 1),
})

/** Sensor axis turned in its probe: sin β of the deviation across, mm; its sum has the shape of the casing seen from there. */
export const rotationShape = (crossDeviationsMm: readonly number[]): ErrorShape => ({
  kind: 'rotation',
  unit: 'rad',
  perInterval: crossDeviationsMm,
})

/**
 * Readings taken too deep by δ: each interval reads δ of what lies below it. In sum δ · (sine at the toe − sine at the
 * top): nothing in a straight casing, however inclined. `sines` at the interval ends from the top down, one more than
 * intervals.
 */
export const depthShape = (sines: readonly number[]): ErrorShape => ({
  kind: 'depth',
  unit: 'mm',
  perInterval: sines.slice(1).map((lower, interval) => lower - (sines[interval] as number)),
})

/** What a fault of a size does: to each interval and, added up, to the far end. mm. */
export function errorOf({ perInterval }: ErrorShape, size: number): readonly number[] {
  return perInterval.map((share) => share * size)
}

/** The fault's size that best explains changes of deviation where the ground stands still, and how well. */
export interface FoundError {
  readonly size: number
  readonly standardError: number
  readonly intervals: number
  /** Share of the squared changes of the still intervals that it explains, 0 to 1; 0 where there are none. */
  readonly explained: number
}

/**
 * Least squares of a shape through the changes of deviation, mm, of the intervals that a person states to be still
 * (from the top, 0). Refused with fewer than three of them that were read, and where the shape is nil there.
 * Finding is not correcting: a correction is a dated calibration that a person saves (`draftCorrection`).
 */
export function findSurveyError(
  shape: ErrorShape,
  changesMm: readonly (number | null)[],
  still: readonly number[],
): Outcome<FoundError> {
  const read = still.flatMap((interval) => {
    const change = changesMm[interval] ?? null
    const share = shape.perInterval[interval]
    return change === null || share === undefined ? [] : [{ change, share }]
  })
  const squares = read.reduce((sum, { share }) => sum + share * share, 0)
  if (read.length < 3 || squares === 0)
    return reject({
      code: 'survey-error-undetermined',
      value: String(read.length),
      expected: 'three still intervals or more, with a shape that is not nil there',
      message: `A ${shape.kind} cannot be told from ${read.length} still intervals here. State more of them.`,
    })
  const size = read.reduce((sum, { change, share }) => sum + change * share, 0) / squares
  const rest = read.reduce((sum, { change, share }) => sum + (change - size * share) ** 2, 0)
  const all = read.reduce((sum, { change }) => sum + change ** 2, 0)
  return accept({
    size,
    explained: all === 0 ? 0 : 1 - rest / all,
    standardError: Math.sqrt(rest / (read.length - 1) / squares),
    intervals: read.length,
  })
}

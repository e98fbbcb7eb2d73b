import { z } from 'zod'
import type { TraverseCorrection } from '#domain/reduction/correct-traverse.ts'

/** A correction as a page asks for it; `basis` is that of the list it was drafted from. */
export const traverseCorrectionSchema: z.ZodType<TraverseCorrection & { readonly basis: string }> =
  z.strictObject({
    basis: z.string().max(64),
    instrument: z.string().min(1).max(100),
    axis: z.enum(['a', 'b']),
    surveyAtEpochMs: z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0)),
    holds: z.enum(['survey', 'onwards']),
    amounts: z
      .array(
        z.strictObject({
          point: z.string().min(1).max(100),
          amountOffMm: z.number(),
          standardErrorMm: z.number(),
        }),
      )
      .min(1)
      .max(1000),
    author: z.string().max(200),
    reason: z.string().max(1000),
  })

/** Calibrations that were entered together for the faces of a casing. */
export interface CorrectedFaces {
  readonly validFromEpochMs: number
  readonly author: string
  readonly reason: string
  readonly faces: number
}

/** `GET /api/sites/:site/traverse-corrections?instrument=…&axis=…`: what was entered for its faces after the first version. */
export interface TraverseCorrectionList {
  /** Changes with every version of any face's calibration. */
  readonly basis: string
  readonly entered: readonly CorrectedFaces[]
}

import { z } from 'zod'
import type { CorrectionDraft } from '#domain/corrections/correction.ts'
import type { CorrectionEvidence, CorrectionProposal } from '#domain/corrections/correction-proposal.ts'
import type { Kept } from '#domain/proposals/proposal.ts'
import { furthestClockSeconds, furthestClockSecondsPerDay } from '#domain/reduction/clock-limits.ts'
import { stepKinds } from '#domain/site/vocabulary.ts'
import { type ProposalList, signedShape } from './proposals.ts'

const instant = z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0))
const id = z.string().min(1).max(200)

const steps = z.array(z.strictObject({ kind: z.enum(stepKinds), parameters: z.string().max(1000) })).max(20)
const terminal = z.strictObject({ logger: id, channel: id })
const dated = { series: id, fromEpochMs: instant, untilEpochMs: instant.nullable() }

const zeroFrom = z.strictObject({
  zero: z.discriminatedUnion('by', [
    z.strictObject({ by: z.literal('reading'), atEpochMs: instant }),
    z.strictObject({ by: z.literal('mean'), fromEpochMs: instant, untilEpochMs: instant }),
  ]),
  reads: z.number(),
})

const clock = z.strictObject({
  addedSeconds: z.number().min(-furthestClockSeconds).max(furthestClockSeconds),
  addedSecondsPerDay: z.number().min(-furthestClockSecondsPerDay).max(furthestClockSecondsPerDay),
})

const correctionSchema: z.ZodType<CorrectionDraft> = z.discriminatedUnion('kind', [
  z.strictObject({
    ...dated,
    kind: z.literal('calibration'),
    was: steps,
    steps,
    zeroFrom: zeroFrom.exactOptional(),
  }),
  z.strictObject({ ...dated, kind: z.literal('wiring'), was: terminal, reads: terminal }),
  z.strictObject({ ...dated, kind: z.literal('barometer'), was: id.nullable(), barometer: id }),
  z.strictObject({ ...dated, kind: z.literal('clock'), logger: id, was: clock, clock }),
])

/** `POST /api/sites/:site/correction-proposals`: answered with the proposal's number, or with what is wrong in issues. */
export const correctionDraftSchema = z.strictObject({
  changes: z.array(correctionSchema).min(1, 'at least one change').max(100, 'at most 100 changes'),
  /** Query part of the page's address, in which the sandbox shows the same. */
  sandbox: z
    .string()
    .max(8000)
    .regex(/^\?[^\s"<>\\]*$/, 'the query part of an address of this page, beginning with ?'),
  ...signedShape,
})
export type CorrectionProposalDraft = z.infer<typeof correctionDraftSchema>

/** Answer to a proposal that was taken. */
export interface CorrectionTaken {
  readonly number: number
  readonly evidence: CorrectionEvidence
  /** Proposals that wait and are of the same series in some of the same time. */
  readonly overlaps: readonly number[]
}

/** A proposal as a page shows it. */
export interface ListedCorrection extends Kept<CorrectionProposal> {
  /** Of one that waits: others that wait for the same series in some of the same time. */
  readonly overlaps: readonly number[]
  /** Of one that waits: why it could not be approved as the records stand now, whole sentences. */
  readonly stale: readonly string[]
}

/** `GET /api/sites/:site/correction-proposals`. */
export type CorrectionProposals = ProposalList<ListedCorrection>

import { z } from 'zod'
import type * as domain from '#domain/reduction/trail.ts'
import type * as source from '#domain/reduction/trail-source.ts'
import type * as step from '#domain/reduction/trail-step.ts'

/** One line of "how was this computed". Numbers are written out so that it checks by hand. */
export const trailStepSchema = z.object({
  kind: z.string(),
  /** Plain sentence with numbers and units filled in. */
  sentence: z.string(),
  /** Formula in symbols. */
  formula: z.string(),
  input: z.number(),
  inputUnit: z.string(),
  output: z.number().nullable(),
  outputUnit: z.string(),
  /** Standard uncertainty of the output carried so far; null where unknown. */
  standardUncertainty: z.number().nullable(),
}) satisfies z.ZodType<step.TrailStep>
export type TrailStep = z.infer<typeof trailStepSchema>

export const trailSourceSchema = z.object({
  role: z.enum(['reading', 'temperature', 'barometer', 'member']),
  series: z.string(),
  logger: z.string(),
  channel: z.string(),
  atEpochMs: z.number(),
  receivedAtEpochMs: z.number(),
  raw: z.number(),
  rawUnit: z.string(),
  fileName: z.string(),
  sha256: z.string(),
  /** What the receipt of that file says of it, such as how a level line closed; null: nothing. */
  fileRemark: z.string().nullable(),
  /** Null: none was in force at that instant. */
  calibration: z.string().nullable(),
  calibrationVersion: z.int().nullable(),
  certificate: z.string().nullable(),
  steps: z.array(trailStepSchema),
  value: z.number().nullable(),
  unit: z.string(),
  standardUncertainty: z.number().nullable(),
  /** How zero, scatter and resolution entered that uncertainty, a sentence each. */
  uncertaintySentences: z.array(z.string()).readonly(),
  /** Whether the air's changes stand in it; left out where it feels none. */
  ventingSentence: z.string().optional(),
  /** Since when and why it is corrected by its barometer; left out where that has no date or is not asked for. */
  barometerSentence: z.string().optional(),
  /** The stamp that its logger sent and why it stands at another instant; left out where it stands as sent. */
  clockSentence: z.string().optional(),
  /** Bits of `quality`. */
  quality: z.int(),
}) satisfies z.ZodType<source.TrailSource>
export type TrailSource = z.infer<typeof trailSourceSchema>

/** How a value was computed. */
export const trailSchema = z.object({
  series: z.string(),
  atEpochMs: z.number(),
  value: z.number().nullable(),
  unit: z.string(),
  standardUncertainty: z.number().nullable(),
  /** How well a change of the series is known under the calibration in force then; left out where it is not. */
  changeSentence: z.string().optional(),
  /** The reading itself first, then companions and members, each with its own chain. */
  sources: z.array(trailSourceSchema),
  /** What was made of them: tip level and pressure to piezometric level, four gauges to one force … */
  derived: z.array(trailStepSchema),
  cautions: z.array(z.string()),
}) satisfies z.ZodType<domain.Trail>

/** What histories and plan still show of the month of a trail's value, while it is worked out anew. */
const pendingPublicationSchema = z.object({
  /** `2027-03` */
  month: z.string(),
  /** Version that a source's published values were made under, where the trail has another; null: none was in force. */
  published: z.array(z.object({ series: z.string(), version: z.int().nullable() })).readonly(),
  sentence: z.string(),
})

/** `GET /api/sites/:site/trail?series=PZ-01A/pore-pressure&at=…`: the arithmetic, and what is said of its readings. */
export const remarkedTrailSchema = trailSchema.extend({
  /** What the automatic checks marked, a sentence each with the limit and where it comes from. */
  marks: z.array(z.string()).readonly(),
  /** What people found about readings of that instant, a sentence each. */
  verdicts: z.array(z.string()).readonly(),
  /** Null: histories and plan show the month of this value as the trail has it. */
  pending: pendingPublicationSchema.nullable(),
})
export type RemarkedTrail = z.infer<typeof remarkedTrailSchema>

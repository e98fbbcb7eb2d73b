import { z } from 'zod'
import type { Contradiction } from '#domain/review/verdict-to-judge.ts'

const contradictionSchema = z.object({
  kind: z.enum(['overtaken', 'borne-out', 'change-stays', 'agrees-again']),
  /** Whole sentence, with its figure. */
  sentence: z.string(),
  figure: z.object({
    value: z.number(),
    low: z.number().nullable(),
    high: z.number().nullable(),
    unit: z.string(),
  }),
}) satisfies z.ZodType<Contradiction>

const unjudgedSchema = z.object({
  verdict: z.string(),
  /** point/measure */
  series: z.string(),
  /**
   * no-series: its series is gone; not-begun: it begins later; nothing-newer: no value of its series came since it was
   * found; too-many: more readings than are held in memory; failed: holding it against them failed.
   */
  why: z.enum(['no-series', 'not-begun', 'nothing-newer', 'too-many', 'failed']),
  /** Whole sentence. */
  reason: z.string(),
})
/** A verdict that holds and that could not be held against anything: of it nothing is known, which is not that nothing speaks against it. */
export type UnjudgedVerdict = z.infer<typeof unjudgedSchema>

/**
 * `GET /api/sites/:site/contradicted-verdicts`: verdicts that hold and that something published since speaks against. It tells
 * whom to look; no verdict is withdrawn by it, no reading hidden and no level moved.
 */
export const contradictedVerdictsSchema = z.object({
  site: z.string(),
  /** Of what was published when they were last held against it; null: not yet. */
  revision: z.int().nullable(),
  /** The whole hour as known at which they were; null: not yet. */
  asOfEpochMs: z.number().nullable(),
  /** True while something published since has not been looked at. */
  behind: z.boolean(),
  /** Why they could not be held against it the last time; null: they could. */
  failure: z.string().nullable(),
  /** How many verdicts hold, contradicted or not, those that could not be judged among them. */
  held: z.int(),
  /** Name of the rules by which they were. */
  rules: z.string(),
  verdicts: z.array(
    z.object({
      verdict: z.string(),
      /** point/measure */
      series: z.string(),
      contradictions: z.array(contradictionSchema),
    }),
  ),
  unjudged: z.array(unjudgedSchema),
})
export type ContradictedVerdicts = z.infer<typeof contradictedVerdictsSchema>

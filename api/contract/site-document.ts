import { z } from 'zod'
import type { StandingApproval } from '#domain/approval/approved-stretches.ts'
import type { HoleStation } from '#domain/geometry/hole-course.ts'
import type { UncertaintyPeriod } from '#domain/reduction/series-uncertainty.ts'
import type { VentingRemark } from '#domain/reduction/venting-remark.ts'
import type { SiteFacts, Works } from '#domain/site/site.ts'
import type {
  AlignmentElementRow,
  AquiferRow,
  CheckLimit,
  ControlPoint,
  CoverageTestRow,
  DiaryEntry,
  Gateway,
  HoldPoint,
  Location,
  Logger,
  Prediction,
  PumpingRateRow,
  SeriesJoin,
  Stage,
  StratumLayer,
  StructureLineRow,
  TriggerLevel,
  Verdict,
  VerdictEvidence,
  VerdictReview,
  VerdictWithdrawal,
  WellRow,
} from '#domain/site/tables.ts'
import { instrumentKinds, measures } from '#domain/site/vocabulary.ts'

const uncertaintyPeriodSchema = z.object({
  fromEpochMs: z.number(),
  commonSinceEpochMs: z.number(),
  standardUncertainty: z.number(),
  independent: z.number().nullable(),
}) satisfies z.ZodType<UncertaintyPeriod>

/** A series of engineering values as the browser knows it. `series` is its number in slices. */
export const seriesSchema = z.object({
  series: z.int(),
  /** point/measure */
  id: z.string(),
  point: z.string(),
  measure: z.enum(measures),
  unit: z.string(),
  decimals: z.int(),
  /** Of its values now: the last of `uncertaintyPeriods`. */
  standardUncertainty: z.number().nullable(),
  /** The same over time, with the share that does not cancel in a change. Left out: not known. */
  uncertaintyPeriods: z.array(uncertaintyPeriodSchema).readonly().optional(),
  intervalMinutes: z.number(),
  lateAfterMinutes: z.number(),
  critical: z.boolean(),
  /** What positive means, in words. */
  positiveMeans: z.string(),
  /** Since when a place that it needs is out of use, so that it ended rather than fell silent. Left out: it goes on. */
  endedAtEpochMs: z.number().optional(),
  /** Of a pressure sensor: what it is against the air, and what its calibration now makes of that. */
  venting: z
    .object({ sentence: z.string(), airStandsInValues: z.boolean() })
    .readonly()
    .optional() satisfies z.ZodType<VentingRemark | undefined>,
  /** True where an instrument makes it from series of its members; left out: a sensor's own. */
  made: z.literal(true).optional(),
  /** Of its transducer, in its unit. Left out: not stated, or made. */
  range: z.object({ low: z.number(), high: z.number() }).readonly().optional(),
})
export type Series = z.infer<typeof seriesSchema>

/** A measuring point with everything a view needs to place it. */
export const placedPointSchema = z.object({
  id: z.string(),
  instrument: z.string(),
  kind: z.enum(instrumentKinds),
  location: z.string(),
  depthMetres: z.number(),
  gaugeLengthMetres: z.number().nullable(),
  /** Interval of a traversed casing: deviation in its zero survey, mm. Left out: not stated. */
  zeroDeviationAMm: z.number().optional(),
  zeroDeviationBMm: z.number().optional(),
  /** Site grid coordinates and level of the point itself, from collar, azimuth and dip. */
  eastingMetres: z.number(),
  northingMetres: z.number(),
  levelMetres: z.number(),
  longitude: z.number(),
  latitude: z.number(),
  stratum: z.string().nullable(),
  /** Turn of the casing's grooves there against the top, clockwise; left out where it was not surveyed. */
  grooveTurnDegrees: z.number().optional(),
  retiredAtEpochMs: z.number().nullable(),
  replaces: z.string().nullable(),
  /** Series that colours it on the plan; null where it has none. */
  primarySeries: z.int().nullable(),
})
export type PlacedPoint = z.infer<typeof placedPointSchema>

export const placedInstrumentSchema = z.object({
  id: z.string(),
  kind: z.enum(instrumentKinds),
  location: z.string(),
  axisBearingDegrees: z.number().nullable(),
  /** Side of the positive B axis, 90° from positive A seen from above; null: clockwise. */
  positiveB: z.enum(['clockwise', 'counter-clockwise']).nullable(),
  /** Of an inclinometer in a casing whose groove spiral was surveyed: what it is and what is made of it. */
  grooveSentence: z.string().optional(),
  positiveMeans: z.string(),
  fixedEnd: z.string().nullable(),
  /** Traversed casing: depth below which it is taken to stand still. Left out: not stated. */
  stillBelowMetres: z.number().optional(),
  /** Structure line: how far apart the readings of one round may lie. Left out: not stated. */
  surveyMaximumAgeDays: z.number().optional(),
  /** Structure line: the structure as a beam. Left out: not stated. */
  structureHeightMetres: z.number().optional(),
  structureStiffnessRatio: z.number().optional(),
  critical: z.boolean(),
  retiredAtEpochMs: z.number().nullable(),
  note: z.string().nullable(),
  points: z.array(z.string()),
})
export type PlacedInstrument = z.infer<typeof placedInstrumentSchema>

/** `GET /api/sites/:site`: all that draws the site but its readings. */
export interface SiteDocument {
  readonly facts: SiteFacts
  /** Lines that have elements are drawn along them, arcs as chords within 10 mm. */
  readonly works: Works
  readonly alignmentElements: readonly AlignmentElementRow[]
  /** Affine from longitude, latitude to grid metres is not given: use `#domain/geometry/site-grid.ts`. */
  readonly stages: readonly Stage[]
  readonly strata: readonly StratumLayer[]
  readonly locations: readonly (Location & {
    longitude: number
    latitude: number
    /** Stations of its deviation survey; none where it was not surveyed. */
    survey: readonly HoleStation[]
  })[]
  /** What ties the site's own grid to the CRS; empty where the CRS is the site grid. */
  readonly controlPoints: readonly ControlPoint[]
  readonly instruments: readonly PlacedInstrument[]
  readonly points: readonly PlacedPoint[]
  readonly series: readonly Series[]
  readonly loggers: readonly Logger[]
  readonly gateways: readonly Gateway[]
  readonly triggerLevels: readonly TriggerLevel[]
  /** Limits of the automatic checks, which words about marks are told with. */
  readonly checkLimits: readonly CheckLimit[]
  /** What people found about stretches of readings. */
  readonly verdicts: readonly Verdict[]
  /** What the design expects by the ends of stages. */
  readonly predictions: readonly Prediction[]
  /** Those of them that were taken back; `standingVerdicts` gives what holds. */
  readonly verdictWithdrawals: readonly VerdictWithdrawal[]
  /** The evidence as it stood when each verdict was found. */
  readonly verdictEvidence: readonly VerdictEvidence[]
  /** Verdicts that people looked at again. */
  readonly verdictReviews: readonly VerdictReview[]
  readonly holdPoints: readonly HoldPoint[]
  /** Stretches of readings that somebody stands for, but for those that were taken back. */
  readonly approvals: readonly StandingApproval[]
  /** Series that carry on from others. */
  readonly joins: readonly SeriesJoin[]
  readonly aquifers: readonly AquiferRow[]
  readonly wells: readonly WellRow[]
  readonly pumpingRates: readonly PumpingRateRow[]
  /** Which points stand along which line through a structure, in order. */
  readonly structureLines: readonly StructureLineRow[]
  readonly coverageTests: readonly CoverageTestRow[]
  readonly diary: readonly DiaryEntry[]
  /** Logger that reads each series now, for the register: series id to `LG-01 / 3`. */
  readonly wiredTo: Readonly<Record<string, string>>
}

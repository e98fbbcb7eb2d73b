import { z } from 'zod'
import type { FieldBody } from '#domain/field/field-bodies.ts'
import { instrumentKinds, measures, stepKinds } from '#domain/site/vocabulary.ts'

const instant = z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0))
const name = z.string().min(1).max(200)
const sentence = z.string().max(4000)
const finite = z.number().min(-1e9).max(1e9)
const maybe = finite.nullable()
const count = z.int().min(0).max(1e6)
const factor = z.int().min(7).max(12)
const signal = z.number().min(-200).max(50).nullable()

const certificate = z.strictObject({
  number: sentence,
  serial: sentence,
  calibratedAtEpochMs: instant,
  dueAtEpochMs: instant.nullable(),
  standardUncertainty: z.number().min(0).max(1e9),
  steps: z.array(z.strictObject({ kind: z.enum(stepKinds), parameters: z.string().max(1000) })).max(20),
})

const sensor = z.strictObject({
  measure: z.enum(measures),
  serial: sentence,
  rawUnit: sentence,
  unit: sentence,
  rangeLow: maybe,
  rangeHigh: maybe,
  intervalMinutes: z.number().min(0.1).max(1e6),
  barometer: name.nullable(),
  certificate: certificate.nullable(),
  zeroReadings: z
    .array(z.strictObject({ atEpochMs: instant, raw: maybe, temperatureDegC: maybe, barometerKpa: maybe }))
    .max(100),
  wiring: z.strictObject({ logger: name, channel: name }).nullable(),
})

const point = z.strictObject({
  id: name,
  depthMetres: z.number().min(0).max(2000),
  gaugeLengthMetres: z.number().min(0).max(2000).nullable(),
  intakeTopLevelMetres: maybe,
  intakeBaseLevelMetres: maybe,
  stratum: name.nullable(),
  sensors: z.array(sensor).max(12),
})

/** What an entry says, by kind. Whether it can be acted on is judged by the domain, never by refusing it here. */
export const fieldBodySchema: z.ZodType<FieldBody> = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('reading'),
    sensor: name,
    atEpochMs: instant,
    raw: finite,
    confirmedBecause: sentence.nullable(),
  }),
  z.strictObject({
    kind: z.enum(['note', 'damage']),
    about: name.nullable(),
    atEpochMs: instant,
    text: sentence,
  }),
  z.strictObject({
    kind: z.literal('coverage-test'),
    test: name,
    atEpochMs: instant,
    mode: z.enum(['with-internet', 'without-internet']),
    logger: name.nullable(),
    eastingMetres: finite,
    northingMetres: finite,
    accuracyMetres: z.number().min(0).max(1e5),
    factors: z
      .array(
        z.strictObject({
          spreadingFactor: factor,
          sent: count,
          received: count.nullable(),
          signalDbm: signal,
        }),
      )
      .max(6),
  }),
  z.strictObject({
    kind: z.literal('receiver-record'),
    test: name,
    factors: z.array(z.strictObject({ spreadingFactor: factor, received: count, signalDbm: signal })).max(6),
  }),
  z.strictObject({
    kind: z.literal('installation'),
    instrument: name,
    instrumentKind: z.enum(instrumentKinds),
    replaces: name.nullable(),
    eastingMetres: maybe,
    northingMetres: maybe,
    collarLevelMetres: maybe,
    surveyedAtEpochMs: instant.nullable(),
    surveyedBy: sentence,
    azimuthDegrees: z.number().min(0).max(360).nullable(),
    dipDegrees: z.number().min(-90).max(90).nullable(),
    lengthMetres: z.number().min(0).max(2000).nullable(),
    axisBearingDegrees: z.number().min(0).max(360).nullable(),
    positiveMeans: sentence,
    fixedEnd: z.enum(['toe', 'head', 'deepest-anchor', 'none', 'surveyed-head']).nullable(),
    installedAtEpochMs: instant,
    critical: z.boolean(),
    grout: sentence,
    points: z.array(point).max(60),
  }),
  z.strictObject({
    kind: z.literal('second-check'),
    instrument: name,
    entry: z.uuid(),
    agreed: z.boolean(),
    found: sentence,
  }),
  z.strictObject({
    kind: z.literal('commissioning-step'),
    logger: name,
    commissioning: z.uuid(),
    step: name,
    outcome: z.enum(['done', 'not-passed', 'skipped']),
    reason: sentence,
    evidence: z
      .record(z.string().max(60), z.union([sentence, finite, z.boolean(), z.null()]))
      .refine((one) => Object.keys(one).length <= 60, 'at most 60 pieces of evidence'),
  }),
  z.strictObject({
    kind: z.literal('commissioning-signature'),
    logger: name,
    commissioning: z.uuid(),
    entries: z.array(z.uuid()).max(200),
    statement: sentence,
  }),
  z.strictObject({ kind: z.literal('memory-file'), logger: name, fileName: name, takenAtEpochMs: instant }),
  z.strictObject({ kind: z.literal('resolution'), subject: name, chosen: z.uuid(), reason: sentence }),
])

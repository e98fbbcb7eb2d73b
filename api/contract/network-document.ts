import { z } from 'zod'
import type * as due from '#domain/network/calibrations-due.ts'
import type * as consequence from '#domain/network/consequence.ts'
import type * as finding from '#domain/network/finding.ts'
import type * as day from '#domain/network/logger-day.ts'

export const loggerDaySchema = z.object({
  dayEpochMs: z.number(),
  due: z.int(),
  held: z.int(),
  inTime: z.int(),
  leastDelaySeconds: z.number().nullable(),
  medianDelaySeconds: z.number().nullable(),
}) satisfies z.ZodType<day.LoggerDay>

const findingSchema = z.object({
  subject: z.string().nullable(),
  says: z.string(),
  toDo: z.string(),
  weight: z.number(),
}) satisfies z.ZodType<finding.Finding>

export const loggerFactsSchema = z.object({
  logger: z.string(),
  kind: z.enum(['logger', 'survey', 'manual']),
  /** Channels wired now, its own cells and temperature among them; empty for a logger out of use. */
  wiredChannels: z.array(z.object({ channel: z.string(), series: z.string(), critical: z.boolean() })),
  /** Shortest interval of what it reads now; null where nothing is wired. */
  intervalMinutes: z.number().nullable(),
  /** After so many minutes it counts as late; null where nothing is wired. */
  lateAfterMinutes: z.number().nullable(),
  /** How its clock is on record at its last stamp; left out: its stamps stand as sent. */
  clockOnRecord: z.object({ addedSeconds: z.number(), addedSecondsPerDay: z.number() }).exactOptional(),
  /** Where its clock is on record as wrong, the instant put right. Null: never heard. */
  lastStampEpochMs: z.number().nullable(),
  lastReceivedEpochMs: z.number().nullable(),
  /** One a UTC day of the window in which something was due or came; none of what people read. */
  days: z.array(loggerDaySchema),
  /** Ways by which readings of the days looked at came, of those that sent something within the last fourteen days. */
  routes: z.array(z.object({ sender: z.string(), readings: z.int() })),
  consequence: z.object({
    channels: z.int(),
    criticalChannels: z.int(),
    dependants: z.int(),
  }) satisfies z.ZodType<consequence.Consequence>,
})
export type LoggerFacts = z.infer<typeof loggerFactsSchema>

/**
 * `GET /api/sites/:site/network?at=`: the loggers as they were known at an instant, the present when none is given. Readings
 * received later are left out, so that a gap stays visible although a memory file has filled it since.
 */
export const networkDocumentSchema = z.object({
  site: z.string(),
  revision: z.int(),
  /** Counts of loggers can be made of it; routes, channels, certificates and findings are left out. */
  forClients: z.literal(true).optional(),
  asOfEpochMs: z.number(),
  /** Start of the days looked at. */
  fromEpochMs: z.number(),
  loggers: z.array(loggerFactsSchema),
  wiringConflicts: z.array(findingSchema),
  singlePoints: z.array(findingSchema),
  calibrations: z.object({
    due: z.array(
      z.object({
        logger: z.string(),
        sensor: z.string(),
        calibration: z.string(),
        certificate: z.string().nullable(),
        dueEpochMs: z.number(),
      }),
    ),
    withoutDate: z.int(),
    sensors: z.int(),
  }) satisfies z.ZodType<due.CalibrationsDue>,
})
export type NetworkDocument = z.infer<typeof networkDocumentSchema>

import { z } from 'zod'
import {
  type IssuedReport,
  papers,
  type ReportManifest,
  reportKinds,
  reportParts,
} from '#domain/report/report.ts'
import type { ReportPeriod } from '#domain/report/report-period.ts'

const sha256 = z.string().regex(/^[0-9a-f]{64}$/)
const frozenSet = z.string().regex(/^[0-9a-f]{16}$/)
const instant = z.int().min(Date.UTC(1950, 0)).max(Date.UTC(2200, 0))

export const reportManifestSchema = z.strictObject({
  form: z.literal(1),
  site: z.string().max(200),
  kind: z.enum(reportKinds),
  number: z.int().min(1),
  fromEpochMs: instant,
  untilEpochMs: instant,
  paper: z.enum(papers),
  parts: z.array(z.enum(reportParts)).max(reportParts.length).readonly(),
  views: z
    .array(z.strictObject({ address: z.string().max(2000), caption: z.string().max(300) }))
    .max(20)
    .readonly(),
  statement: z.strictObject({
    text: z.string().max(20_000),
    author: z.string().max(200),
    atEpochMs: instant,
  }),
  frozenSet,
  cutOffEpochMs: instant,
  previousFrozenSet: frozenSet.nullable(),
  previousNumber: z.int().min(1).nullable(),
  previousUntilEpochMs: instant.nullable(),
  software: z.string().max(100),
}) satisfies z.ZodType<ReportManifest>

/** The files of a report by their names, with the type that they are served as. */
export const reportFiles = {
  'report.html': 'text/html; charset=utf-8',
  'report.pdf': 'application/pdf',
} as const
export type ReportFileName = keyof typeof reportFiles

/** All files of a report together, bytes. */
export const largestReportBytes = 60 * 1024 ** 2

/**
 * `POST /api/sites/:site/reports`: a multipart form with `issue` (this, as JSON) and a file under each name of
 * `sha256`. 201 with the `IssuedReport`; 409 where another one took its number meanwhile.
 */
export const reportIssueSchema = z.strictObject({
  manifest: reportManifestSchema,
  /** What the page takes the files to be; others are refused. */
  sha256: z.strictObject({ 'report.html': sha256, 'report.pdf': sha256 }),
})
export type ReportIssue = z.infer<typeof reportIssueSchema>

/** `GET /api/sites/:site/reports`: all that were issued, newest first, and the periods that still lack one. */
export interface ReportList {
  readonly reports: readonly IssuedReport[]
  /**
   * Those that cannot be made again, or whose files cannot be given out, by what is known without reading frozen data: a
   * sentence for each reason.
   */
  readonly lost?: readonly { readonly report: number; readonly sentences: readonly string[] }[]
  readonly due: readonly (ReportPeriod & { readonly kind: 'weekly' | 'monthly' })[]
  /** The instant that counts as the present here. */
  readonly asOfEpochMs: number
  /** Version of the program on this server; empty: not told. */
  readonly software: string
}

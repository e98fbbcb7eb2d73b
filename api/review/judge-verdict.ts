import type { ContradictedVerdicts, UnjudgedVerdict } from '#contract/contradicted-verdicts.ts'
import { hoursQuestion, type ReviewQuestion, readingsQuestion } from '#contract/review-questions.ts'
import type { SiteDocument } from '#contract/site-document.ts'
import { casesOfPatch, patchQuestion } from '#domain/review/case/patch-cases.ts'
import type { KnownNetwork, ReadColumns } from '#domain/review/case/reviewed-site.ts'
import { againStretch, contradictionsNow } from '#domain/review/verdict-again.ts'
import type { Verdict } from '#domain/site/tables.ts'
import type { PublishedSlices } from './published-slices.ts'

/**
 * As many readings of its series, or hourly means of it and the series beside it, one verdict is held against at once: half
 * a year by the minute, or a year by the hour of 28 series. More would fill the memory.
 */
export const mostReadings = 250_000

/** What is the same for every verdict of a look. */
export interface JudgedBy {
  readonly site: SiteDocument
  readonly network: KnownNetwork
  readonly around: Parameters<typeof patchQuestion>[3]
  readonly asOfEpochMs: number
  readonly slices: PublishedSlices
}

/** What speaks against a verdict, or why it could not be told; null: it was looked at, and nothing does. */
export type Judgement =
  | { readonly contradicted: ContradictedVerdicts['verdicts'][number] }
  | { readonly unjudged: UnjudgedVerdict }
  | null

/**
 * Holds one verdict against what was published, as a page does that is open at the instant: the same questions to the same
 * slices, the same case, the same rules. It is not judged with more than
 * `mostReadings`, nor where nothing speaks against it and no value came since it was found.
 */
export async function judgeVerdict(
  verdict: Verdict,
  { site, network, around, asOfEpochMs, slices }: JudgedBy,
): Promise<Judgement> {
  const { id, series } = verdict
  const unjudged = (why: UnjudgedVerdict['why'], reason: string): Judgement => ({
    unjudged: { verdict: id, series, why, reason },
  })
  const subject = site.series.find((one) => one.id === series)
  if (!subject) return unjudged('no-series', `${series} has no values any more.`)
  const stretch = againStretch(verdict, subject, asOfEpochMs)
  if (!stretch) return unjudged('not-begun', 'It begins after the hour up to which data were looked at.')
  const question = patchQuestion(site, [subject], network, around, stretch)
  const readings = await slices.ask(oneMoreThanMost(readingsQuestion(stretch, [subject.series])))
  if (readings.rows > mostReadings) return unjudged('too-many', tooMany)
  const hours = await slices.ask(oneMoreThanMost(hoursQuestion(stretch, question.hours)))
  if (hours.rows > mostReadings) return unjudged('too-many', tooMany)
  const contradictions = [...casesOfPatch(site, question, { hours, readings })].flatMap((reviewed) => [
    ...contradictionsNow(verdict, site.verdictEvidence, reviewed),
  ])
  if (contradictions.length > 0) return { contradicted: { verdict: id, series, contradictions } }
  return isAnyNewer(readings, verdict.at)
    ? null
    : unjudged('nothing-newer', `No value of ${series} has come since it was found.`)
}

const tooMany = `It would have to be held against more than ${mostReadings} readings or hourly means at once.`

/** The same question, answered no further than to tell that it is too much. */
const oneMoreThanMost = ({ sql, params }: ReviewQuestion): ReviewQuestion => ({
  sql: `${sql} limit ${mostReadings + 1}`,
  params,
})

/** Whether a reading was taken, or received, after an instant. */
function isAnyNewer(readings: ReadColumns, atEpochMs: number): boolean {
  const receivedAfterS = readings.number('received_after_s')
  return readings.number('at_ms').some((at, row) => at + (receivedAfterS[row] ?? 0) * 1000 > atEpochMs)
}

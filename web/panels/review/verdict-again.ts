import type { Series } from '#contract/site-document.ts'
import type { VerdictToJudge } from '#domain/review/verdict-to-judge.ts'
import type { Verdict, VerdictEvidence } from '#domain/site/tables.ts'
import type { ReviewStretch } from './create-review.ts'

const hourMs = 3_600_000
const dayMs = 24 * hourMs

/**
 * What is looked at to hold a verdict against what came after it: from a month before it begins, or from as far back as
 * eight readings of it lie, to the clock. Null: no clock, or it stands before the verdict.
 */
export function againStretch(
  { fromAt }: Pick<Verdict, 'fromAt'>,
  { intervalMinutes }: Pick<Series, 'intervalMinutes'>,
  atEpochMs: number | null,
): ReviewStretch | null {
  if (atEpochMs === null || atEpochMs <= fromAt) return null
  const beforeMs = Math.max(30 * dayMs, 8 * intervalMinutes * 60_000)
  return {
    fromEpochMs: Math.floor((fromAt - beforeMs) / hourMs) * hourMs,
    asOfEpochMs: Math.floor(atEpochMs / hourMs) * hourMs,
  }
}

/** A verdict with the evidence that was kept with it. */
export const judgedVerdict = (verdict: Verdict, evidence: readonly VerdictEvidence[]): VerdictToJudge => ({
  verdict: verdict.verdict,
  cause: verdict.cause ?? null,
  fromEpochMs: verdict.fromAt,
  untilEpochMs: verdict.untilAt,
  foundAtEpochMs: verdict.at,
  evidence: evidence.filter((line) => line.verdict === verdict.id),
})

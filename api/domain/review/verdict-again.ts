import type { Verdict, VerdictEvidence } from '../site/tables.ts'
import { findOddities } from './oddity.ts'
import { weighCase } from './rank-causes.ts'
import type { ReviewCase } from './review-case.ts'
import { contradictionsOf } from './verdict-contradictions.ts'
import type { Contradiction, VerdictToJudge } from './verdict-to-judge.ts'

/** Readings that are weighed: since when, and as they were known at an instant. */
export interface ReviewStretch {
  readonly fromEpochMs: number
  readonly asOfEpochMs: number
}

const hourMs = 3_600_000
const dayMs = 24 * hourMs

/**
 * What is looked at to hold a verdict against what came after it: from a month before it begins, or from as far back as
 * eight readings of it lie, to the clock. Null: no clock, or it stands before the verdict.
 */
export function againStretch(
  { fromAt }: Pick<Verdict, 'fromAt'>,
  { intervalMinutes }: { readonly intervalMinutes: number },
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
const judgedVerdict = (verdict: Verdict, evidence: readonly VerdictEvidence[]): VerdictToJudge => ({
  verdict: verdict.verdict,
  cause: verdict.cause ?? null,
  fromEpochMs: verdict.fromAt,
  untilEpochMs: verdict.untilAt,
  foundAtEpochMs: verdict.at,
  evidence: evidence.filter((line) => line.verdict === verdict.id),
})

/**
 * What now known speaks against a verdict: what `contradictionsOf` finds in the table of the question that it was about, or of the
 * first that the stretch asks. Page and server tell it by this.
 */
export function contradictionsNow(
  verdict: Verdict,
  evidence: readonly VerdictEvidence[],
  reviewed: ReviewCase,
): readonly Contradiction[] {
  const odd = findOddities(reviewed).map(({ oddity }) => oddity)
  const asked = odd.find((one) => one === (verdict.oddity ?? 'value')) ?? odd[0]
  return asked === undefined
    ? []
    : contradictionsOf(judgedVerdict(verdict, evidence), reviewed, weighCase(reviewed, asked))
}

import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import { seriesIds } from './series-ids.ts'
import type { SiteModel } from './site.ts'
import { showInstant } from './site-readings.ts'
import { siteTables, type Verdict, type VerdictWithdrawal } from './tables.ts'
import type { WeighedEvidence } from './verdict-evidence.ts'
import { verdictFaults } from './verdict-faults.ts'
import {
  effectsText,
  type VerdictCause,
  type VerdictConfidence,
  type VerdictEffect,
} from './verdict-words.ts'
import type { VerdictKind } from './vocabulary.ts'

/** What a person found about a stretch of readings, as they propose it. */
export interface VerdictDraft {
  /** point/measure */
  readonly series: string
  readonly fromEpochMs: number
  /** Exclusive; null: while it lasts. */
  readonly untilEpochMs: number | null
  readonly verdict: VerdictKind
  readonly reason: string
  /** Other explanations that were considered, and why they were set aside. */
  readonly alternatives: string
  readonly author: string
  /** What it is laid on, and how sure its author is of that; both or neither. */
  readonly cause?: VerdictCause | null | undefined
  readonly confidence?: VerdictConfidence | null | undefined
  readonly effects?: readonly VerdictEffect[] | undefined
  /** The evidence as it stood before whoever found it; absent where none was looked at. */
  readonly evidence?: WeighedEvidence | null | undefined
}

export interface WithdrawalDraft {
  /** Id of the verdict that is taken back. */
  readonly verdict: string
  readonly reason: string
  readonly author: string
}

/**
 * The record that a draft becomes, or every reason why not; an issue's `column` is the place in the draft. Judged as a
 * row of `verdicts.csv` is. Verdicts entered so are named `VE-1`, `VE-2` … and override by being later.
 */
export function nextVerdict(
  model: Parameters<typeof seriesIds>[0] & Pick<SiteModel, 'verdicts'>,
  draft: VerdictDraft,
  foundAtEpochMs: number,
): Outcome<Verdict> {
  const row: Verdict = {
    id: nextId(model.verdicts),
    series: draft.series,
    fromAt: draft.fromEpochMs,
    untilAt: draft.untilEpochMs,
    verdict: draft.verdict,
    reason: draft.reason.trim(),
    alternatives: draft.alternatives.trim(),
    author: draft.author.trim(),
    at: foundAtEpochMs,
    cause: draft.cause ?? null,
    confidence: draft.confidence ?? null,
    effects: effectsText(draft.effects ?? []),
    oddity: draft.evidence?.oddity ?? null,
    evidenceFromAt: draft.evidence?.fromEpochMs ?? null,
    evidenceUntilAt: draft.evidence?.untilEpochMs ?? null,
    rulesVersion: draft.evidence?.rulesVersion ?? null,
  }
  const faults = verdictFaults({ ...row, id: 'The verdict' }, seriesIds(model), siteTables.sensors.file)
  const issues = [
    ...faults.map((fault) =>
      fault.column !== 'untilAt'
        ? fault
        : {
            ...fault,
            column: 'untilEpochMs',
            expected: 'later than it begins',
            message: `The verdict would end at ${showInstant(row.untilAt)}, not later than it begins, ${showInstant(row.fromAt)}. Correct one of the two, or say that it lasts.`,
          },
    ),
    ...emptyTexts(row, ['reason', 'alternatives', 'author']),
  ]
  return issues.length > 0 ? reject(...issues) : accept(row)
}

/** The record by which a verdict is taken back, or every reason why not. A verdict is taken back once. */
export function nextWithdrawal(
  model: Pick<SiteModel, 'verdicts' | 'verdictWithdrawals'>,
  draft: WithdrawalDraft,
  atEpochMs: number,
): Outcome<VerdictWithdrawal> {
  const row: VerdictWithdrawal = {
    verdict: draft.verdict,
    at: atEpochMs,
    author: draft.author.trim(),
    reason: draft.reason.trim(),
  }
  const issues: Issue[] = [...emptyTexts(row, ['reason', 'author'])]
  const before = model.verdictWithdrawals.find(({ verdict }) => verdict === draft.verdict)
  if (before)
    issues.push({
      code: 'withdrawn-already',
      column: 'verdict',
      value: draft.verdict,
      message: `${draft.verdict} was withdrawn already by ${before.author}: ${before.reason}. Enter a new verdict to say otherwise.`,
    })
  else if (!model.verdicts.some(({ id }) => id === draft.verdict))
    issues.push({
      code: 'verdict-unknown',
      column: 'verdict',
      value: draft.verdict,
      message: `There is no verdict ${draft.verdict} at this site. Choose one that is listed.`,
    })
  return issues.length > 0 ? reject(...issues) : accept(row)
}

const sentences = {
  reason: 'No reason is given. Say what it rests on, so that it can be judged later.',
  alternatives:
    'No other explanation is named. Say what else was considered and why it was set aside, or that nothing else was.',
  author: 'Nobody is named who enters it. Write your name.',
} as const

const emptyTexts = <K extends keyof typeof sentences>(
  row: Readonly<Record<K, string>>,
  columns: readonly K[],
): readonly Issue[] =>
  columns
    .filter((column) => row[column] === '')
    .map((column) => ({ code: `${column}-missing`, column, value: '', message: sentences[column] }))

function nextId(verdicts: readonly Pick<Verdict, 'id'>[]): string {
  const numbers = verdicts.map(({ id }) => Number(/^VE-(\d+)$/.exec(id)?.[1] ?? 0))
  return `VE-${Math.max(0, ...numbers) + 1}`
}

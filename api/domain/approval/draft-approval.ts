import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { SiteModel } from '../site/site.ts'
import { showInstant } from '../site/site-readings.ts'
import type { Approval, ApprovalWithdrawal } from '../site/tables.ts'

/** Readings that a person has looked through and stands for, as they propose it. */
export interface ApprovalDraft {
  readonly instruments: readonly string[]
  readonly fromEpochMs: number
  /** Exclusive. */
  readonly untilEpochMs: number
  /** What was looked at: round of checks, report, by whom. */
  readonly statement: string
  readonly author: string
  /** Of when what was looked at is: what arrived later was not seen. Left out: of the moment of approving. */
  readonly seenAtEpochMs?: number | undefined
}

export interface ApprovalWithdrawalDraft {
  readonly approval: string
  readonly reason: string
  readonly author: string
}

/**
 * The records that a draft becomes, one an instrument, or every reason why not; an issue's `column` is the place in
 * the draft. Only what is past can be approved: a reading that has not come yet was seen by nobody. They are of the
 * instant of what was looked at, so that what arrived while somebody wrote is provisional.
 */
export function nextApprovals(
  model: Pick<SiteModel, 'approvals' | 'instruments'>,
  draft: ApprovalDraft,
  atEpochMs: number,
  recipeNow: (instrument: string, fromEpochMs: number, untilEpochMs: number) => string,
): Outcome<readonly Approval[]> {
  const { instruments, fromEpochMs, untilEpochMs } = draft
  const seenAtEpochMs = Math.min(atEpochMs, draft.seenAtEpochMs ?? atEpochMs)
  const known = new Set(model.instruments.map(({ id }) => id))
  const issues: Issue[] = instruments
    .filter((id) => !known.has(id))
    .map((id) => ({
      code: 'instrument-unknown',
      column: 'instruments',
      value: id,
      message: `There is no instrument ${id} at this site. Choose among those that are listed.`,
    }))
  if (instruments.length === 0)
    issues.push({
      code: 'instruments-missing',
      column: 'instruments',
      message: 'No instrument is chosen. Choose at least one.',
    })
  if (untilEpochMs <= fromEpochMs)
    issues.push({
      code: 'ends-before-begin',
      column: 'untilEpochMs',
      value: showInstant(untilEpochMs),
      message: `The stretch would end at ${showInstant(untilEpochMs)}, not later than it begins, ${showInstant(fromEpochMs)}. Correct one of the two.`,
    })
  if (untilEpochMs > atEpochMs)
    issues.push({
      code: 'not-past',
      column: 'untilEpochMs',
      value: showInstant(untilEpochMs),
      expected: `at most ${showInstant(atEpochMs)}`,
      message: `The stretch ends at ${showInstant(untilEpochMs)}, which has not come yet. Approve only what has been read.`,
    })
  else if (untilEpochMs > seenAtEpochMs)
    issues.push({
      code: 'not-seen',
      column: 'untilEpochMs',
      value: showInstant(untilEpochMs),
      expected: `at most ${showInstant(seenAtEpochMs)}`,
      message: `The stretch ends at ${showInstant(untilEpochMs)}, and what was looked at is of ${showInstant(seenAtEpochMs)}. Look at newer readings first, or end the stretch earlier.`,
    })
  issues.push(...missingWords(draft, ['statement', 'author']))
  if (issues.length > 0) return reject(...issues)
  const first = nextNumber(model.approvals)
  return accept(
    [...new Set(instruments)].map((instrument, i) => ({
      id: `AP-${first + i}`,
      instrument,
      fromAt: fromEpochMs,
      untilAt: untilEpochMs,
      at: seenAtEpochMs,
      approver: draft.author.trim(),
      statement: draft.statement.trim(),
      recipe: recipeNow(instrument, fromEpochMs, untilEpochMs),
    })),
  )
}

/** The record by which an approval is taken back, or every reason why not. */
export function nextApprovalWithdrawal(
  model: Pick<SiteModel, 'approvals' | 'approvalWithdrawals'>,
  draft: ApprovalWithdrawalDraft,
  atEpochMs: number,
): Outcome<ApprovalWithdrawal> {
  const { approval } = draft
  const issues: Issue[] = [...missingWords(draft, ['reason', 'author'])]
  const before = model.approvalWithdrawals.find((one) => one.approval === approval)
  if (before)
    issues.push({
      code: 'withdrawn-already',
      column: 'approval',
      value: approval,
      message: `${approval} was taken back already by ${before.author}: ${before.reason}`,
    })
  else if (!model.approvals.some(({ id }) => id === approval))
    issues.push({
      code: 'approval-unknown',
      column: 'approval',
      value: approval,
      message: `There is no approval ${approval} at this site. Choose one that is listed.`,
    })
  if (issues.length > 0) return reject(...issues)
  return accept({ approval, at: atEpochMs, author: draft.author.trim(), reason: draft.reason.trim() })
}

const sentences = {
  statement: 'Nothing is said of what was looked at. Say which checks, plots or report it rests on.',
  reason: 'No reason is given. Say why the readings are no longer stood for.',
  author: 'Nobody is named. Write your name.',
} as const

const missingWords = <K extends keyof typeof sentences>(
  draft: Readonly<Record<K, string>>,
  columns: readonly K[],
): readonly Issue[] =>
  columns
    .filter((column) => draft[column].trim() === '')
    .map((column) => ({ code: `${column}-missing`, column, value: '', message: sentences[column] }))

const nextNumber = (approvals: readonly Pick<Approval, 'id'>[]): number =>
  1 + Math.max(0, ...approvals.map(({ id }) => Number(/^AP-(\d+)$/.exec(id)?.[1] ?? 0)))

import { accept, type Issue, type Outcome, reject } from '../outcome.ts'
import type { TriggerLevel } from '../site/tables.ts'

/** A trigger level before anyone has proposed or approved it. */
export type LevelDraft = Omit<TriggerLevel, 'author' | 'approver'>

/** One change of the trigger levels of a site. Nothing is rewritten: what is replaced ends, and its like begins. */
export type LevelChange =
  | { readonly kind: 'add'; readonly level: LevelDraft }
  | { readonly kind: 'end'; readonly id: string; readonly atEpochMs: number }
  /** The level of `id` ends at the first instant of `level`, which has a name of its own. */
  | { readonly kind: 'replace'; readonly id: string; readonly level: LevelDraft }

/** A change as it was proposed, with the level it is about as that stood then; null: there was none. */
export type ProposedChange = LevelChange & { readonly before: TriggerLevel | null }

/** Who proposed, who approves, and when that counts from. */
export interface ApprovedBy {
  readonly author: string
  readonly approver: string
  readonly atEpochMs: number
}

/** Fixes changes to the levels as they stand: what each is about must be there, and what it adds must not. */
export function proposeChanges(
  levels: readonly TriggerLevel[],
  changes: readonly LevelChange[],
): Outcome<readonly ProposedChange[]> {
  const proposed = changes.map((change) => ({ ...change, before: subjectOf(levels, change) }))
  const issues = changes.flatMap((change): Issue[] => {
    if (change.kind !== 'add' && subjectOf(levels, change) === null)
      return [
        {
          code: 'level-unknown',
          column: 'id',
          value: change.id,
          message: `There is no level "${change.id}". Look at the list again, and propose anew.`,
        },
      ]
    return []
  })
  return issues.length > 0 ? reject(...issues) : accept(proposed)
}

/**
 * The levels after changes that were proposed and approved. Refused where a level that they are about is not as it was
 * when they were proposed, or a name is taken. What ends or is replaced does so no earlier than it was approved, so
 * that no approval reaches back into time that has been judged by the level before.
 */
export function applyChanges(
  levels: readonly TriggerLevel[],
  changes: readonly ProposedChange[],
  { author, approver, atEpochMs }: ApprovedBy,
): Outcome<readonly TriggerLevel[]> {
  const issues: Issue[] = []
  let next = levels
  for (const change of changes) {
    const subject = subjectOf(next, change)
    if (change.kind !== 'add' && !isSameLevel(subject, change.before))
      issues.push({
        code: 'levels-changed-meanwhile',
        value: change.id,
        message: `${change.id} was changed since this was proposed. Reject the proposal, look at the level as it is now, and propose anew.`,
      })
    if (change.kind !== 'end' && next.some(({ id }) => id === change.level.id))
      issues.push({
        code: 'name-taken',
        column: 'id',
        value: change.level.id,
        message: `There is a level "${change.level.id}" already. Give the new one a name of its own.`,
      })
    const fromEpochMs =
      change.kind === 'add'
        ? change.level.validFrom
        : Math.max(change.kind === 'end' ? change.atEpochMs : change.level.validFrom, atEpochMs)
    if (change.kind !== 'add')
      next = next.flatMap((level) => (level.id === change.id ? endedAt(level, fromEpochMs) : [level]))
    if (change.kind !== 'end') next = [...next, { ...change.level, validFrom: fromEpochMs, author, approver }]
  }
  return issues.length > 0 ? reject(...issues) : accept(next)
}

/** True where two levels say the same; cells that are absent and cells that are empty do not differ. */
export const isSameLevel = (one: object | null, other: object | null): boolean =>
  one === null || other === null ? one === other : textOf(one) === textOf(other)

const subjectOf = (levels: readonly TriggerLevel[], change: LevelChange): TriggerLevel | null =>
  change.kind === 'add' ? null : (levels.find(({ id }) => id === change.id) ?? null)

/** A level that had not begun by then never applies, and is withdrawn: its record stays, the level is gone. */
const endedAt = (level: TriggerLevel, atEpochMs: number): readonly TriggerLevel[] =>
  level.validFrom >= atEpochMs
    ? []
    : [{ ...level, validUntil: Math.min(atEpochMs, level.validUntil ?? Number.POSITIVE_INFINITY) }]

const textOf = (level: object): string =>
  JSON.stringify(
    Object.entries(level)
      .filter(([, value]) => value != null)
      .sort(([one], [other]) => (one < other ? -1 : 1)),
  )

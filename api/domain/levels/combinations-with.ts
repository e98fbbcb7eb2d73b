import type { TriggerLevel } from '../site/tables.ts'
import type { LevelChange } from './level-change.ts'
import { draftOf, freeName } from './levels-csv.ts'
import { membersOf, watchedBy } from './watched-by.ts'

/**
 * Changes together with those of the combinations that count a level which is replaced: each is replaced from the same
 * instant on by one that counts the new level. Without that a combination would go on counting a level that has ended,
 * and never be reached again. A combination that the changes already say something of is left to them.
 */
export function withCombinations(
  levels: readonly TriggerLevel[],
  changes: readonly LevelChange[],
): readonly LevelChange[] {
  const taken = new Set(levels.map(({ id }) => id))
  for (const change of changes) if (change.kind !== 'end') taken.add(change.level.id)
  const all = [...changes]
  // Combinations of combinations come after those they count.
  for (const change of all) {
    if (change.kind !== 'replace') continue
    const { id: old, level: next } = change
    for (const [at, other] of all.entries())
      if (other !== change && other.kind === 'replace' && other.level.watches === 'combination')
        all[at] = { ...other, level: { ...other.level, against: counting(other.level, old, next.id) } }
    for (const level of levels) {
      const applies = level.validUntil === null || level.validUntil > next.validFrom
      if (watchedBy(level) !== 'combination' || !applies || !membersOf(level).includes(old)) continue
      if (all.some((other) => other.kind !== 'add' && other.id === level.id)) continue
      const id = freeName(level.id, taken)
      taken.add(id)
      const validFrom = Math.max(next.validFrom, level.validFrom)
      all.push({
        kind: 'replace',
        id: level.id,
        level: { ...draftOf(level), id, validFrom, against: counting(level, old, next.id) },
      })
    }
  }
  return all
}

const counting = (level: Pick<TriggerLevel, 'against'>, old: string, next: string): string =>
  membersOf(level)
    .map((id) => (id === old ? next : id))
    .join(';')

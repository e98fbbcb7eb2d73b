import { expect, test } from 'vitest'
import { withCombinations } from '#domain/levels/combinations-with.ts'
import { draftOf } from '#domain/levels/levels-csv.ts'
import { levelFor } from '../../support/level-for.ts'

const levels = [
  levelFor({ id: 'a' }),
  levelFor({ id: 'b' }),
  levelFor({ id: 'both', watches: 'combination', against: 'a;b', value: 2 }),
  levelFor({ id: 'more', watches: 'combination', against: 'both; a', value: 2 }),
  levelFor({ id: 'past', watches: 'combination', against: 'a;b', value: 2, validUntil: 400 }),
]
const replace = (id: string, next: string) =>
  ({ kind: 'replace', id, level: draftOf(levelFor({ id: next, validFrom: 500, value: 12 })) }) as const

test('combinations that count a replaced level are replaced with it, and those that count these', () => {
  const made = withCombinations(levels, [replace('a', 'a (2)')])
  expect(
    made.map((change) =>
      change.kind === 'replace'
        ? [change.id, change.level.id, change.level.against, change.level.validFrom]
        : [],
    ),
  ).toEqual([
    ['a', 'a (2)', undefined, 500],
    ['both', 'both (2)', 'a (2);b', 500],
    ['more', 'more (2)', 'both (2);a (2)', 500],
  ])
})

test('what ends, is added or is counted by none brings nothing with it', () => {
  const end = { kind: 'end', id: 'a', atEpochMs: 500 } as const
  expect(withCombinations(levels, [end])).toEqual([end])
  expect(withCombinations(levels.slice(0, 2), [replace('a', 'a (2)')])).toHaveLength(1)
})

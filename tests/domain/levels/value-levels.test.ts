import { expect, test } from 'vitest'
import { inForceOf, valueLevels } from '#domain/levels/value-levels.ts'
import { levelFor } from '../../support/level-for.ts'

const stages = [
  { id: 'dig', startsAt: 200, endsAt: 300 },
  { id: 'slab', startsAt: 300, endsAt: null },
]

test('a level with a stage applies while both last', () => {
  const level = levelFor({ validFrom: 100, validUntil: 250 })
  expect(inForceOf(level, stages)).toEqual({ fromEpochMs: 100, untilEpochMs: 250 })
  expect(inForceOf({ ...level, stage: 'dig' }, stages)).toEqual({ fromEpochMs: 200, untilEpochMs: 250 })
  expect(inForceOf({ ...level, stage: 'slab' }, stages)).toBeNull()
  expect(inForceOf({ ...level, validUntil: null, stage: 'slab' }, stages)).toEqual({
    fromEpochMs: 300,
    untilEpochMs: null,
  })
  expect(inForceOf({ ...level, stage: 'gone' }, stages)).toBeNull()
})

test('a value is held against levels on values alone, in their time', () => {
  const levels = [
    levelFor({ id: 'plain' }),
    levelFor({ id: 'staged', stage: 'dig' }),
    levelFor({ id: 'rate', watches: 'rate', windowMinutes: 60 }),
    levelFor({ id: 'silence', watches: 'silence' }),
  ]
  expect(
    valueLevels(levels, stages).map(({ id, validFrom, validUntil }) => [id, validFrom, validUntil]),
  ).toEqual([
    ['plain', 0, null],
    ['staged', 200, 300],
  ])
})

import { describe, expect, test } from 'vitest'
import { applyChanges, type LevelChange, proposeChanges } from '#domain/levels/level-change.ts'
import { draftOf } from '#domain/levels/levels-csv.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { levelFor } from '../../support/level-for.ts'

const present = [levelFor({ id: 'a' }), levelFor({ id: 'b', validUntil: 900 })]
const by = { author: 'Ada', approver: 'Ben', atEpochMs: 500 }
const draft = (changed: Partial<TriggerLevel>) => draftOf(levelFor(changed))

function applied(levels: readonly TriggerLevel[], ...changes: readonly LevelChange[]) {
  const proposed = proposeChanges(present, changes)
  return proposed.ok ? applyChanges(levels, proposed.value, by) : proposed
}
const levelsAfter = (...changes: readonly LevelChange[]) => {
  const outcome = applied(present, ...changes)
  return outcome.ok ? outcome.value : []
}

describe('changes of levels', () => {
  test('what is added carries who proposed and who approved it', () => {
    expect(levelsAfter({ kind: 'add', level: draft({ id: 'c', validFrom: 100 }) })).toEqual([
      ...present,
      levelFor({ id: 'c', validFrom: 100, author: 'Ada', approver: 'Ben' }),
    ])
  })

  test('what is replaced ends where its like begins, and never before it was approved', () => {
    const later = levelsAfter({
      kind: 'replace',
      id: 'a',
      level: draft({ id: 'a (2)', validFrom: 700, value: 12 }),
    })
    expect(later.map(({ id, validFrom, validUntil }) => [id, validFrom, validUntil])).toEqual([
      ['a', 0, 700],
      ['b', 0, 900],
      ['a (2)', 700, null],
    ])
    const earlier = levelsAfter({ kind: 'replace', id: 'a', level: draft({ id: 'a (2)', validFrom: 200 }) })
    expect(earlier.map(({ validFrom, validUntil }) => [validFrom, validUntil])).toEqual([
      [0, 500],
      [0, 900],
      [500, null],
    ])
  })

  test('what ends keeps its end where that is earlier', () => {
    expect(levelsAfter({ kind: 'end', id: 'b', atEpochMs: 600 })[1]?.validUntil).toBe(600)
    expect(levelsAfter({ kind: 'end', id: 'b', atEpochMs: 2000 })[1]?.validUntil).toBe(900)
  })

  test('what had not begun is withdrawn', () => {
    const future = levelFor({ id: 'a', validFrom: 800 })
    const change = {
      kind: 'replace',
      id: 'a',
      level: draft({ id: 'a (2)', validFrom: 600 }),
      before: future,
    } as const
    const outcome = applyChanges([future], [change], by)
    expect(outcome.ok && outcome.value.map(({ id, validFrom }) => [id, validFrom])).toEqual([['a (2)', 600]])
  })

  test('a level that changed meanwhile, a name that is taken and one that is not there are refused', () => {
    const end = { kind: 'end', id: 'a', atEpochMs: 600 } as const
    const codes = (outcome: ReturnType<typeof applied>) =>
      outcome.ok ? [] : outcome.issues.map(({ code }) => code)
    expect(codes(applied([levelFor({ id: 'a', value: 11 })], end))).toEqual(['levels-changed-meanwhile'])
    expect(codes(applied([], end))).toEqual(['levels-changed-meanwhile'])
    expect(codes(applied(present, { kind: 'add', level: draft({ id: 'b' }) }))).toEqual(['name-taken'])
    expect(codes(applied(present, { kind: 'end', id: 'z', atEpochMs: 600 }))).toEqual(['level-unknown'])
  })
})

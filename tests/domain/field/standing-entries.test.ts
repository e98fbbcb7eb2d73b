import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { FieldBody } from '#domain/field/field-bodies.ts'
import { latestIds, standingEntries } from '#domain/field/standing-entries.ts'

const step = (outcome: 'done' | 'skipped'): FieldBody => ({
  kind: 'commissioning-step',
  logger: 'LG-01',
  commissioning: 'c',
  step: 'clock',
  outcome,
  reason: '',
  evidence: {},
})
const subject = 'commissioning:LG-01:c:clock'
const entry = (id: string, follows: readonly string[], body: FieldBody = step('done')) => ({
  id,
  follows,
  body,
})

test('a later entry takes the place of the one that it follows', () => {
  expect(standingEntries([entry('a', []), entry('b', ['a'], step('skipped'))])).toMatchObject([
    { subject, entries: [{ id: 'b' }], disputed: false },
  ])
})

test('two that did not know of each other stand side by side, until one follows both', () => {
  const two = [entry('a', []), entry('b', ['a']), entry('c', ['a'])]
  expect(standingEntries(two)).toMatchObject([{ entries: [{ id: 'b' }, { id: 'c' }], disputed: true }])
  expect(latestIds(two, subject)).toEqual(['b', 'c'])
  const resolution: FieldBody = { kind: 'resolution', subject, chosen: 'c', reason: 'Looked again.' }
  expect(standingEntries([...two, entry('d', ['b', 'c'], resolution)])).toMatchObject([
    { entries: [{ id: 'c' }], disputed: false },
  ])
})

test('what stands does not depend on the order of arrival, and no entry that nobody followed is lost', () => {
  const histories = fc
    .array(fc.array(fc.nat(), { maxLength: 3 }), { minLength: 1, maxLength: 12 })
    .map((parents) =>
      parents.map((of, i) => entry(String(i), i === 0 ? [] : of.map((one) => String(one % i)))),
    )
  fc.assert(
    fc.property(
      histories.chain((history) =>
        fc.tuple(fc.constant(history), fc.shuffledSubarray(history, { minLength: history.length })),
      ),
      ([history, shuffled]) => {
        const ids = (of: typeof history) =>
          standingEntries(of)
            .flatMap(({ entries }) => entries.map(({ id }) => id))
            .sort()
        const followed = new Set(history.flatMap(({ follows }) => follows))
        expect(ids(shuffled)).toEqual(ids(history))
        expect(ids(history)).toEqual(
          history
            .map(({ id }) => id)
            .filter((id) => !followed.has(id))
            .sort(),
        )
      },
    ),
  )
})

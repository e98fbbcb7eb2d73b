import { expect, test } from 'vitest'
import { foldLevels } from '#domain/alerts/fold-levels.ts'
import { levelFor } from '../../support/level-for.ts'

const hour = 3_600_000
const values = (given: readonly number[]) =>
  given.map((value, at) => ({ atEpochMs: at * hour, receivedAtEpochMs: (at + 1) * hour, value }))
const stages = [
  { id: 'dig', startsAt: 2 * hour, endsAt: 5 * hour },
  { id: 'slab', startsAt: 5 * hour, endsAt: null },
]

test('levels of all kinds, each at its time', () => {
  const episodes = foldLevels({
    levels: [
      levelFor({ id: 'value' }),
      levelFor({ id: 'dig', stage: 'dig' }),
      levelFor({ id: 'unknown-stage', stage: 'gone' }),
      levelFor({ id: 'tilt', series: 'T/tilt', value: 1 }),
      levelFor({ id: 'both', watches: 'combination', against: 'value; tilt', value: 2 }),
      levelFor({
        id: 'one',
        watches: 'combination',
        against: 'value;tilt',
        needed: 1,
        value: 1,
        stage: 'slab',
      }),
      levelFor({ id: 'apart', watches: 'difference', against: 'T/tilt', windowMinutes: 1, value: 11 }),
      levelFor({ id: 'silent', watches: 'silence', value: 120, series: 'T/tilt' }),
    ],
    stages,
    values: new Map([
      ['P-1/settlement', values([9, 11, 12, 12, 12, 12, 12, 3])],
      ['T/tilt', values([0, 0, 0, 2, 2, 0])],
    ]),
    asOfEpochMs: 9 * hour,
  })
  const spans = (id: string) =>
    (episodes.get(id) ?? []).map((one) =>
      [one.heldAtEpochMs, one.leftAtEpochMs].map((at) => (at === null ? null : at / hour)),
    )
  expect(spans('value')).toEqual([[1, 7]])
  expect(spans('dig')).toEqual([[2, 5]])
  expect(spans('unknown-stage')).toEqual([])
  expect(spans('both')).toEqual([[3, 5]])
  expect(episodes.get('both')).toMatchObject([{ knownAtEpochMs: 4 * hour, peakValue: 2 }])
  expect(spans('one')).toEqual([[5, 7]])
  expect(spans('apart')).toEqual([
    [1, 3],
    [5, null],
  ])
  expect(spans('silent')).toEqual([[7, null]])
})

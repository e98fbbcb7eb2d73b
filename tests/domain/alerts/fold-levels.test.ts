import { expect, test } from 'vitest'
import { beginLevels, seriesNeeded, type ValuesBySeries } from '#domain/alerts/fold-levels.ts'
import { levelFor } from '../../support/level-for.ts'

const hour = 3_600_000
const values = (given: readonly number[]) =>
  given.map((value, at) => ({ atEpochMs: at * hour, receivedAtEpochMs: (at + 1) * hour, value }))
const stages = [
  { id: 'dig', startsAt: 2 * hour, endsAt: 5 * hour },
  { id: 'slab', startsAt: 5 * hour, endsAt: null },
]
const levels = [
  levelFor({ id: 'value' }),
  levelFor({ id: 'dig', stage: 'dig' }),
  levelFor({ id: 'unknown-stage', stage: 'gone' }),
  levelFor({ id: 'tilt', series: 'T/tilt', value: 1 }),
  levelFor({ id: 'both', watches: 'combination', against: 'value; tilt', value: 2 }),
  levelFor({ id: 'one', watches: 'combination', against: 'value;tilt', needed: 1, value: 1, stage: 'slab' }),
  levelFor({ id: 'apart', watches: 'difference', against: 'T/tilt', windowMinutes: 1, value: 11 }),
  levelFor({ id: 'silent', watches: 'silence', value: 120, series: 'T/tilt' }),
  levelFor({ id: 'silent longer', watches: 'silence', value: 180, series: 'T/tilt' }),
  levelFor({ id: 'rate', watches: 'rate', windowMinutes: 180, value: 12, direction: 'either' }),
  levelFor({ id: 'change', watches: 'change', changeSince: 1.5 * hour, value: 1 }),
]
const all = new Map([
  ['P-1/settlement', values([9, 11, 12, 12, 12, 12, 12, 3])],
  ['T/tilt', values([0, 0, 0, 2, 2, 0])],
])

/** Episodes after values handed in by parts of so many hours. */
function folded(hoursAPart: number) {
  const folding = beginLevels(levels, stages)
  for (let from = 0; from < 9; from += hoursAPart) {
    const part: ValuesBySeries = new Map(
      [...all].map(([id, own]) => [
        id,
        own.filter(({ atEpochMs }) => atEpochMs >= from * hour && atEpochMs < (from + hoursAPart) * hour),
      ]),
    )
    folding.take(part)
  }
  return folding.episodes(9 * hour)
}

test('levels of all kinds, each at its time', () => {
  const episodes = folded(9)
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
  expect(spans('silent longer')).toEqual([[8, null]])
  // 9, 11, 12 over two hours rise 1.5 an hour; 12, 12, 12, 3 over three fall 2.7 an hour.
  expect(spans('rate')).toEqual([
    [2, 4],
    [7, null],
  ])
  expect(spans('change')).toEqual([[2, 7]])
})

test('handed in part by part, the same', () => {
  for (const hours of [1, 2, 4]) expect(folded(hours)).toEqual(folded(9))
})

test('which series they need', () => {
  expect([...seriesNeeded(levels)]).toEqual(['P-1/settlement', 'T/tilt'])
})

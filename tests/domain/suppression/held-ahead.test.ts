import { expect, it } from 'vitest'
import type { Suppression, SuppressionEnd } from '#domain/site/tables.ts'
import { heldTooLongAhead } from '#domain/suppression/held-ahead.ts'
import { withEnds } from '#domain/suppression/held-back.ts'

const present = Date.UTC(2027, 9, 21)
const day = 86_400_000
const held = (id: string, from: number, until: number, name = 'SP-01/settlement'): Suppression => ({
  id,
  covers: 'series',
  name,
  fromAt: present + from * day,
  untilAt: present + until * day,
  reason: 'works beside it',
  author: 'Ada Marsh',
})
const found = (rows: readonly Suppression[], ends: readonly SuppressionEnd[] = []) =>
  heldTooLongAhead(withEnds(rows, ends), present).map(({ value }) => value)

// 14 days on end: the rule of the project's own, for one suppression and for several.
it.each([
  ['one of 14 days', [held('a', 0, 14)]],
  ['one that is planned', [held('a', 30, 44)]],
  ['two with a gap', [held('a', 0, 10), held('b', 11, 20)]],
  ['two about different series', [held('a', 0, 10), held('b', 10, 20, 'SP-02/settlement')]],
  ['one that was done again as the first went on', [held('a', -13, 1), held('b', 0, 14)]],
  ['those that are past', [held('a', -40, -27), held('b', -27, -14)]],
])('%s may be', (_what, rows) => expect(found(rows)).toEqual([]))

it.each([
  ['adjoining', [held('a', 0, 10), held('b', 10, 20)]],
  ['overlapping, in any order', [held('b', 9, 20), held('a', 0, 10)]],
  ['overlapping and planned', [held('a', 30, 40), held('b', 35, 45)]],
  ['of which the first goes on', [held('a', -10, 4), held('b', 4, 18)]],
])('two that are %s are told', (_what, rows) => expect(found(rows)).toEqual(['b']))

it('one that a person ended counts until then', () => {
  const end = { suppression: 'a', at: present + 2 * day, author: 'Ben Holm', reason: 'done' }
  expect(found([held('a', 0, 10), held('b', 10, 20)], [end])).toEqual([])
})

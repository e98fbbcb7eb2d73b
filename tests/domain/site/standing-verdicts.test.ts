import { expect, test } from 'vitest'
import { standingVerdicts } from '#domain/site/standing-verdicts.ts'
import type { Verdict } from '#domain/site/tables.ts'

const verdict = (
  id: string,
  fromAt: number,
  untilAt: number | null,
  at: number,
  series = 'A/x',
): Verdict => ({
  id,
  series,
  fromAt,
  untilAt,
  verdict: 'doubtful',
  reason: 'why',
  alternatives: 'none',
  author: 'A. Tester',
  at,
})
const told = (verdicts: readonly Verdict[], withdrawn: readonly string[] = []) =>
  standingVerdicts(
    verdicts,
    withdrawn.map((id) => ({ verdict: id })),
  ).map(({ id, fromAt, untilAt }) => [id, fromAt, untilAt])

test('a later verdict holds where it overlaps, whatever their order; elsewhere the earlier goes on', () => {
  const whole = verdict('1', 0, null, 10)
  const within = verdict('2', 20, 30, 11)
  const pieces = [
    ['1', 0, 20],
    ['1', 30, null],
  ]
  expect(told([whole, within])).toEqual([...pieces, ['2', 20, 30]])
  expect(told([within, whole])).toEqual([['2', 20, 30], ...pieces])
  expect(told([whole, { ...within, untilAt: null }])).toEqual([
    ['1', 0, 20],
    ['2', 20, null],
  ])
})

test('of two found at once the one entered later holds; other series and stretches that touch are left alone', () => {
  expect(told([verdict('1', 0, 10, 5), verdict('2', 0, 10, 5)])).toEqual([['2', 0, 10]])
  const apart = [verdict('1', 0, 10, 5), verdict('2', 10, 20, 6), verdict('3', 0, 20, 7, 'B/x')]
  expect(told(apart)).toEqual([
    ['1', 0, 10],
    ['2', 10, 20],
    ['3', 0, 20],
  ])
})

test('one that was taken back holds nowhere, and what it overrode holds again', () => {
  const verdicts = [verdict('1', 0, null, 10), verdict('2', 20, 30, 11)]
  expect(told(verdicts, ['2'])).toEqual([['1', 0, null]])
  expect(told(verdicts, ['1'])).toEqual([['2', 20, 30]])
  expect(told(verdicts, ['1', '2'])).toEqual([])
})

import { expect, test } from 'vitest'
import { openEffects } from '#domain/site/open-effects.ts'
import type { Verdict } from '#domain/site/tables.ts'
import {
  confidenceMeans,
  effectsOf,
  effectsText,
  unknownEffects,
  verdictConfidences,
} from '#domain/site/verdict-words.ts'

const verdict = (id: string, at: number, effects: string | null, fromAt = 0): Verdict => ({
  id,
  series: 'A/x',
  fromAt,
  untilAt: null,
  verdict: 'doubtful',
  reason: 'r',
  alternatives: 'a',
  author: 'A',
  at,
  effects,
})
const named = (found: ReturnType<typeof openEffects>) => found.map((one) => `${one.verdict.id} ${one.effect}`)
const open = (verdicts: readonly Verdict[], asOf: number, withdrawn: string[] = [], done: number[] = []) =>
  named(
    openEffects(
      {
        verdicts,
        verdictWithdrawals: withdrawn.map((id) => ({ verdict: id, at: 50, author: 'B', reason: 'r' })),
      },
      asOf,
      () => done,
    ),
  )

test('effects are asked for from their verdict on, until what sees to them is newer than it', () => {
  const verdicts = [verdict('V-1', 10, 're-zero; visit ordered')]
  expect(open(verdicts, 9)).toEqual([])
  expect(open(verdicts, 10)).toEqual(['V-1 re-zero', 'V-1 visit ordered'])
  expect(open(verdicts, 20, [], [9, 10])).toHaveLength(2)
  expect(open(verdicts, 20, [], [11])).toEqual([])
  expect(open(verdicts, 20, [], [21])).toHaveLength(2)
})

test('one that is taken back or overridden everywhere asks for nothing, from then on', () => {
  const verdicts = [verdict('V-1', 10, 're-zero')]
  expect(open(verdicts, 49, ['V-1'])).toHaveLength(1)
  expect(open(verdicts, 50, ['V-1'])).toEqual([])
  const later = [...verdicts, verdict('V-2', 30, null)]
  expect([open(later, 29), open(later, 30)]).toEqual([['V-1 re-zero'], []])
  expect(open([...verdicts, verdict('V-2', 30, null, 40)], 60)).toEqual(['V-1 re-zero'])
})

test('effects stand in one cell in their own order, and unknown words are named', () => {
  expect(effectsText(['visit ordered', 'flag readings'])).toBe('flag readings; visit ordered')
  expect(effectsText([])).toBeNull()
  expect(effectsOf({ effects: ' visit ordered;re-zero ; burn it' })).toEqual(['visit ordered', 're-zero'])
  expect(unknownEffects('visit ordered; burn it')).toEqual(['burn it'])
  expect(effectsOf({})).toEqual([])
})

test('ranges of confidence follow each other without a hole, the least first', () => {
  const percents = verdictConfidences.map((word) => confidenceMeans[word].match(/\d+(?= ?%| to \d+ %)/g))
  expect(percents).toEqual([['33', '66'], ['66', '90'], null, ['99']])
  expect(confidenceMeans['very likely']).toContain('90 to 99 of 100')
})

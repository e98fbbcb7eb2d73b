import { describe, expect, test } from 'vitest'
import { judgeEnd, judgeLevel, type LevelToJudge, type WatchedSeries } from '#domain/levels/judge-level.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { levelFor } from '../../support/level-for.ts'

const series: WatchedSeries = {
  id: 'P-1/settlement',
  measure: 'settlement',
  unit: 'mm',
  standardUncertainty: 0.5,
  independent: 0.5,
  rangeLow: -50,
  rangeHigh: 50,
  intervalMinutes: 60,
}
const day = 86_400_000
const stages = [
  { id: 'dig', name: 'Dig', startsAt: 0, endsAt: 10 * day, formationLevelMetres: null },
  { id: 'slab', name: 'Slab', startsAt: 12 * day, endsAt: null, formationLevelMetres: null },
]
const judged = (changed: Partial<TriggerLevel>, more: Partial<LevelToJudge> = {}) =>
  judgeLevel({
    level: levelFor(changed),
    series,
    before: null,
    beside: [],
    stages,
    presentEpochMs: 100 * day,
    ...more,
  }).map(({ severity, code }) => `${severity} ${code}`)

test('a level far from noise and within reach has nothing against it', () => {
  expect(judged({ value: 10, holdReadings: 3, hysteresisShare: 0.1, withinMinutes: 240 })).toEqual([])
})

describe('noise', () => {
  // 1.96·√2·0.5 = 1.386: the smallest change told between two readings of standard uncertainty 0.5, 95 % confidence.
  test.each<[Partial<TriggerLevel>, string[]]>([
    [{ value: 1.39 }, []],
    [{ value: 1.38 }, ['warning inside-detectable-change']],
    [{ value: -1.38, direction: 'below' }, ['warning inside-detectable-change']],
    [{ value: 0.49 }, ['fault below-repeatability']],
    [
      { value: 1.9, watches: 'difference', against: 'P-2/settlement', windowMinutes: 120 },
      ['warning inside-detectable-change'],
    ],
    // Through 25 readings in a day: u·√(12/24) = 0.354 mm a day, 1.96 of which are 0.69.
    [{ value: 0.7, watches: 'rate', windowMinutes: 1440 }, []],
    [{ value: 0.68, watches: 'rate', windowMinutes: 1440 }, ['warning inside-detectable-change']],
    [{ value: 0.3, watches: 'rate', windowMinutes: 1440 }, ['fault below-repeatability']],
  ])('%j', (changed, found) => {
    expect(judged(changed)).toEqual(found)
  })

  test('in a change and a rate only what does not cancel counts; where that is not known it warns, and refuses not', () => {
    const change = { value: 0.3, watches: 'change', changeSince: 0 } as const
    expect(judged(change)).toEqual(['fault below-repeatability'])
    expect(judged(change, { series: { ...series, independent: 0.05 } })).toEqual([])
    expect(judged(change, { series: { ...series, independent: null } })).toEqual([
      'warning inside-detectable-change',
    ])
    expect(judged({ value: 0.3 }, { series: { ...series, independent: 0.05 } })).toEqual([
      'fault below-repeatability',
    ])
  })

  test('without a known uncertainty nothing is said of it', () => {
    expect(
      judged({ value: 0.1 }, { series: { ...series, standardUncertainty: null, independent: null } }),
    ).toEqual([])
  })
})

test.each<[string, Partial<TriggerLevel>]>([
  ['fault beyond-range', { value: 51 }],
  ['fault beyond-range', { value: -51, direction: 'below' }],
  ['fault beyond-range', { value: 101, watches: 'change', changeSince: 0 }],
  ['fault action-missing', { action: ' – ' }],
  ['fault silence-shorter-than-interval', { watches: 'silence', value: 59 }],
  ['warning silence-near-interval', { watches: 'silence', value: 60 }],
  ['fault window-too-short', { watches: 'rate', windowMinutes: 119, value: 40 }],
  ['fault gap-shorter-than-interval', { holdReadings: 2, longestGapMinutes: 59 }],
  ['warning held-longer-than-response', { holdReadings: 3, withinMinutes: 119 }],
  ['warning hole-after-stage', { stage: 'dig' }],
])('%s', (found, changed) => {
  expect(judged(changed)).toContain(found)
})

test('a level of the next stage closes the hole only where it follows at once, or another lasts over it', () => {
  const slab = levelFor({ id: 'two', stage: 'slab' })
  const says = (beside: TriggerLevel[]) => judged({ stage: 'dig' }, { beside })
  expect(says([slab])).toEqual(['warning hole-after-stage'])
  expect(says([slab, levelFor({ id: 'three', validFrom: 10 * day, validUntil: 12 * day })])).toEqual([])
})

test('angular distortion beyond what damages structures', () => {
  const distortion = { ...series, measure: 'angular-distortion', unit: 'mm/m', standardUncertainty: 0.05 }
  expect(judged({ value: 6.6, direction: 'either' }, { series: distortion })).toEqual([])
  expect(judged({ value: 6.7, direction: 'either' }, { series: distortion })).toEqual([
    'warning beyond-published-limit',
  ])
})

describe('raised after it was reached', () => {
  const episode = {
    level: 'one',
    crossedAtEpochMs: 60 * day,
    heldAtEpochMs: 60 * day,
    leftAtEpochMs: 71 * day,
    leftBecause: 'value' as const,
    knownAtEpochMs: 60 * day,
    peakValue: 12,
    peakAtEpochMs: 61 * day,
  }
  const before = { level: levelFor(), episodes: [episode] }

  test.each<[Partial<TriggerLevel>, boolean]>([
    [{ value: 12 }, true],
    [{ value: 9 }, false],
    [{ value: 10, holdReadings: 2 }, true],
    [{ value: 12, reason: 'Design review 7 of 3 May' }, false],
    [{ value: 10, watches: 'change', changeSince: 0 }, true],
    [{ value: 10, stage: 'slab' }, true],
  ])('%j', (changed, refused) => {
    expect(judged(changed, { before }).includes('fault raised-after-reached')).toBe(refused)
  })

  test.each<[Partial<TriggerLevel>, Partial<TriggerLevel>, boolean]>([
    [{ watches: 'change', changeSince: 0 }, { watches: 'change', changeSince: 80 * day }, true],
    [{ watches: 'change', changeSince: 0 }, { watches: 'change', changeSince: 0, value: 9 }, false],
    [{ watches: 'rate', windowMinutes: 600 }, { watches: 'rate', windowMinutes: 6000 }, true],
    [{ holdReadings: 2 }, { holdReadings: 2, longestGapMinutes: 15 }, true],
    [{ series: 'P-2/settlement' }, {}, true],
  ])('from %j to %j', (was, changed, refused) => {
    const reached = { level: levelFor(was), episodes: [episode] }
    expect(judged(changed, { before: reached }).includes('fault raised-after-reached')).toBe(refused)
  })

  test('long after, or never reached, it may be', () => {
    expect(judged({ value: 12 }, { before, presentEpochMs: 102 * day })).toEqual([])
    expect(judged({ value: 12 }, { before: { level: levelFor(), episodes: [] } })).toEqual([])
    expect(
      judged(
        { value: 12 },
        {
          before: { level: levelFor(), episodes: [{ ...episode, leftAtEpochMs: null }] },
          presentEpochMs: 900 * day,
        },
      ),
    ).toEqual(['fault raised-after-reached'])
  })

  test('nor is it ended', () => {
    expect(judgeEnd('no longer needed', before, 100 * day)).toMatchObject([{ code: 'raised-after-reached' }])
    expect(judgeEnd('After the design review', before, 100 * day)).toEqual([])
  })
})

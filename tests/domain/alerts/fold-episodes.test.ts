import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Episode, WatchedValue } from '#domain/alerts/episode.ts'
import { episodesOf, foldEpisodes, foldOn } from '#domain/alerts/fold-episodes.ts'
import { beginFold, type FoldState } from '#domain/alerts/fold-state.ts'
import type { TriggerLevel } from '#domain/site/tables.ts'
import { levelFor } from '../../support/level-for.ts'

const minute = 60_000
const values = (given: readonly (number | null)[], everyMinutes = 1): WatchedValue[] =>
  given.map((value, at) => ({
    atEpochMs: at * everyMinutes * minute,
    receivedAtEpochMs: (at * everyMinutes + 5) * minute,
    value,
  }))
const spans = (episodes: readonly Episode[]) =>
  episodes.map((one) =>
    [one.crossedAtEpochMs, one.heldAtEpochMs, one.leftAtEpochMs].map((at) =>
      at === null ? null : at / minute,
    ),
  )

describe('foldEpisodes', () => {
  test('an episode that never stood long enough is kept with its crossing', () => {
    const level = levelFor({ holdReadings: 3 })
    expect(spans(foldEpisodes(level, values([8, 11, 9.5, 11, 11, 11, 12, 8])))).toEqual([
      [1, null, 2],
      [3, 5, null],
    ])
  })

  test('it is left only once values have stayed behind the hysteresis as long', () => {
    const level = levelFor({ holdReadings: 2, hysteresisShare: 0.1 })
    const [episode] = foldEpisodes(level, values([11, 12, 9.2, 8.9, 9.2, 8.9, 8.8]))
    expect(episode).toMatchObject({ leftBecause: 'value', peakValue: 12, peakAtEpochMs: minute })
    expect(spans([episode as Episode])).toEqual([[0, 1, 6]])
  })

  test('neither a gap nor a missing value holds or ends an episode', () => {
    const level = levelFor({ holdReadings: 2, longestGapMinutes: 60 })
    expect(spans(foldEpisodes(level, values([11, 11, 11], 90)))).toEqual([[0, null, null]])
    expect(spans(foldEpisodes(level, values([11, null, 11, 11, 5, null, 5, 5])))).toEqual([[0, 3, 7]])
  })

  test('what made it held is known with the last of its receipts', () => {
    const given = values([11, 11, 11]).map((one, at) =>
      at === 1 ? { ...one, receivedAtEpochMs: 99 * minute } : one,
    )
    expect(foldEpisodes(levelFor({ holdReadings: 3 }), given)[0]?.knownAtEpochMs).toBe(99 * minute)
    expect(foldEpisodes(levelFor({ holdReadings: 4 }), given)[0]?.knownAtEpochMs).toBe(5 * minute)
  })

  test('where the level ends, so does the episode, and values outside its time do not count', () => {
    const level = levelFor({ validFrom: 2 * minute, validUntil: 4 * minute })
    const [episode, ...rest] = foldEpisodes(level, values([11, 11, 11, 11, 11, 11]))
    expect(rest).toEqual([])
    expect(episode).toMatchObject({ leftBecause: 'level-ended' })
    expect(spans([episode as Episode])).toEqual([[2, 2, 4]])
    const open = values([11, 11, 11, 11]).reduce(foldOn, beginFold(level))
    expect(spans(episodesOf(open))).toEqual([[2, 2, null]])
    expect(spans(episodesOf(open, 4 * minute))).toEqual([[2, 2, 4]])
  })

  test('a level that begins where the last reading is beyond it is reached from then on, without a new reading', () => {
    const level = levelFor({ validFrom: 30 * minute, validUntil: 90 * minute })
    const state = values([9, 11]).reduce(foldOn, beginFold(level))
    expect(spans(episodesOf(state, 29 * minute))).toEqual([])
    expect(episodesOf(state, 30 * minute)).toMatchObject([
      { peakValue: 11, peakAtEpochMs: minute, knownAtEpochMs: 30 * minute },
    ])
    expect(spans(episodesOf(state, 30 * minute))).toEqual([[30, 30, null]])
    const next = (at: number, value: number) => ({
      atEpochMs: at * minute,
      receivedAtEpochMs: at * minute,
      value,
    })
    expect(spans(episodesOf(foldOn(state, next(60, 12))))).toEqual([[30, 30, null]])
    expect(spans(episodesOf(foldOn(state, next(60, 3))))).toEqual([[30, 30, 60]])
    expect(spans(episodesOf(foldOn(state, next(120, 3))))).toEqual([[30, 30, 90]])
    // A reading at its first instant counts instead, and one without a value says nothing.
    expect(spans(episodesOf(foldOn(state, next(30, 3))))).toEqual([])
    expect(spans(episodesOf(foldOn(state, { ...next(20, 0), value: null }), 40 * minute))).toEqual([])
    const slow = values([9, 11]).reduce(foldOn, beginFold({ ...level, holdReadings: 2 }))
    expect(spans(episodesOf(slow, 40 * minute))).toEqual([[30, null, null]])
    expect(spans(episodesOf(foldOn(slow, next(60, 12))))).toEqual([[30, 60, null]])
  })

  test('levels below and either way', () => {
    const below = levelFor({ direction: 'below', value: -10, hysteresisShare: 0.1 })
    expect(spans(foldEpisodes(below, values([-9, -10, -9.5, -9, -8.9])))).toEqual([[1, 1, 4]])
    const either = foldEpisodes(levelFor({ direction: 'either' }), values([9, -11, 12, -13, 3]))
    expect(either).toMatchObject([{ peakValue: -13 }])
    expect(spans(either)).toEqual([[1, 1, 4]])
  })

  test('its state is plain data', () => {
    const state = values([11, 11, 9]).reduce(foldOn, beginFold(levelFor()))
    expect(JSON.parse(JSON.stringify(state))).toEqual(state)
  })
})

const anyLevel = fc
  .record({
    direction: fc.constantFrom('above' as const, 'below' as const, 'either' as const),
    value: fc.integer({ min: -3, max: 3 }),
    holdReadings: fc.option(fc.integer({ min: 1, max: 3 })),
    holdMinutes: fc.option(fc.integer({ min: 0, max: 4 })),
    hysteresisShare: fc.option(fc.constantFrom(0, 0.2, 0.5)),
    longestGapMinutes: fc.option(fc.integer({ min: 1, max: 5 })),
    validFrom: fc.integer({ min: 0, max: 10 }).map((at) => at * minute),
    validUntil: fc.option(fc.integer({ min: 11, max: 40 }).map((at) => at * minute)),
  })
  .map(levelFor)
const anyValues = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 4 }), fc.option(fc.integer({ min: -4, max: 4 })), fc.nat(50)), {
    maxLength: 40,
  })
  .map((steps) => {
    let at = 0
    return steps.map(([wait, value, delay]): WatchedValue => {
      at += wait * minute
      return { atEpochMs: at, receivedAtEpochMs: at + delay * minute, value }
    })
  })
const reaches = ({ direction, value: level }: TriggerLevel, value: number) =>
  direction === 'above'
    ? value >= level
    : direction === 'below'
      ? value <= level
      : Math.abs(value) >= Math.abs(level)

describe('whatever comes in', () => {
  test('in any order, in any batches and again, the episodes are those of one fold of everything', () => {
    fc.assert(
      fc.property(
        anyLevel,
        anyValues.chain((all) =>
          fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length }), fc.subarray(all)),
        ),
        (level, [all, arrivals, again]) => {
          const known: WatchedValue[] = []
          let state: FoldState = beginFold(level)
          for (const value of [...arrivals, ...again]) {
            if (!known.includes(value)) known.push(value)
            state = foldOn(state, value)
            if (state.refoldFromEpochMs !== null)
              state = known
                .toSorted((one, other) => one.atEpochMs - other.atEpochMs)
                .reduce(foldOn, beginFold(level))
          }
          expect(episodesOf(state)).toEqual(foldEpisodes(level, all))
        },
      ),
      { seed: 6, numRuns: 300 },
    )
  })

  test('every value that reached the level lies in an episode, the first at its crossing; no other level has any', () => {
    fc.assert(
      fc.property(anyLevel, anyValues, (level, all) => {
        const inTime = all.filter(
          ({ atEpochMs }) => level.validFrom <= atEpochMs && atEpochMs < (level.validUntil ?? Infinity),
        )
        const reached = inTime.filter(({ value }) => value !== null && reaches(level, value))
        const episodes = foldEpisodes(level, all)
        const before = all.findLast(({ atEpochMs }) => atEpochMs < level.validFrom)
        const isBegunBeyond =
          before !== undefined &&
          before.value !== null &&
          reaches(level, before.value) &&
          all.some(({ atEpochMs }) => atEpochMs > level.validFrom) &&
          all.every(({ atEpochMs }) => atEpochMs !== level.validFrom)
        expect(episodes[0]?.crossedAtEpochMs).toBe(isBegunBeyond ? level.validFrom : reached[0]?.atEpochMs)
        for (const { atEpochMs } of reached)
          expect(
            episodes.filter(
              ({ crossedAtEpochMs, leftAtEpochMs }) =>
                crossedAtEpochMs <= atEpochMs && atEpochMs < (leftAtEpochMs ?? Infinity),
            ),
          ).toHaveLength(1)
        for (const { heldAtEpochMs, crossedAtEpochMs } of episodes)
          if (heldAtEpochMs !== null)
            expect(heldAtEpochMs - crossedAtEpochMs).toBeGreaterThanOrEqual((level.holdMinutes ?? 0) * minute)
      }),
      { seed: 6, numRuns: 500 },
    )
  })

  test('a value too late to be folded, or another at the same instant, is told', () => {
    const state = values([1, 2, 3]).reduce(foldOn, beginFold(levelFor()))
    expect(foldOn(state, { atEpochMs: 90_000, receivedAtEpochMs: 9e9, value: 2 }).refoldFromEpochMs).toBe(
      90_000,
    )
    expect(foldOn(state, { atEpochMs: minute, receivedAtEpochMs: 9e9, value: 7 }).refoldFromEpochMs).toBe(
      minute,
    )
    expect(foldOn(state, { atEpochMs: minute, receivedAtEpochMs: 9e9, value: 2 })).toBe(state)
  })
})

import { describe, expect, test } from 'vitest'
import { foldEpisodes } from '#domain/alerts/fold-episodes.ts'
import { compareLevels, watchedValuesOf } from '#domain/what-if/compare-levels.ts'
import type { ReducedSeries } from '#domain/what-if/reduced-series.ts'
import { levelFor } from '../../support/level-for.ts'
import { hourMs } from './standing-of.ts'

const series = 'SP-1/settlement'
const values = (of: readonly number[]): ReadonlyMap<string, ReducedSeries> =>
  new Map([
    [
      series,
      {
        atEpochMs: Float64Array.from(of, (_, hour) => hour * hourMs),
        value: Float64Array.from(of),
        quality: new Uint8Array(of.length),
        receivedAfterSeconds: new Float64Array(of.length),
        decimals: 1,
      },
    ],
  ])
const official = values([1, 8, 8, 1, 1, 1, 1, 1])
const higher = values([1, 8, 8, 11, 11, 9.5, 8.5, 8])

const compared = (levels: Parameters<typeof compareLevels>[0]['levels'], sandbox = higher) =>
  compareLevels({
    levels,
    stages: [],
    series: new Set([series]),
    official,
    sandbox,
    fromEpochMs: 0,
    asOfEpochMs: 8 * hourMs,
  })

describe('levels in the sandbox', () => {
  const ten = levelFor({ id: 'L', series, value: 10, direction: 'above', validFrom: 0 })

  test('one that only the sandbox reaches would be reached, held and left by its hysteresis', () => {
    const held = { ...ten, holdReadings: 2, hysteresisShare: 0.1 }
    const [one] = compared([held]).levels
    expect(one?.fate).toBe('now-reached')
    // 9.5 is still within a tenth of 10; 8.5 is not, and two readings of it are needed.
    expect(one?.sandbox).toMatchObject([{ heldAtEpochMs: 4 * hourMs, leftAtEpochMs: 7 * hourMs }])
  })

  test('one that must stand three readings is not reached by two: its crossing raises nothing', () => {
    expect(compared([{ ...ten, holdReadings: 3 }]).levels[0]?.fate).toBe('never')
  })

  test('one that only the official values reach is not reached any more', () => {
    const seven = { ...ten, value: 7 }
    expect(compared([seven], values([1, 1, 1, 1, 1, 1, 1, 1])).levels[0]?.fate).toBe('no-more')
    expect(compared([seven]).levels[0]?.fate).toBe('otherwise')
    expect(compared([seven], official).levels[0]?.fate).toBe('as-before')
  })

  test('a level is judged as alerts are: the same episodes as folding its values alone', () => {
    const level = { ...ten, value: 8.7, holdReadings: 2, hysteresisShare: 0.05 }
    const own = higher.get(series)
    const alone = own ? foldEpisodes(level, watchedValuesOf(own)) : []
    expect(compared([level]).levels[0]?.sandbox).toEqual(alone)
    expect(alone).toHaveLength(1)
  })

  test('one that needs what is not here, or begins before it, is told and not judged', () => {
    const difference = {
      ...ten,
      id: 'D',
      watches: 'difference',
      against: 'SP-2/settlement',
      windowMinutes: 60,
    } as const
    const change = { ...ten, id: 'C', watches: 'change', changeSince: -1 } as const
    const { levels, notJudged } = compared([difference, change])
    expect(levels).toEqual([])
    expect(notJudged.map(({ level, reason }) => `${level.id}: ${reason}`)).toEqual([
      'D: it needs readings of SP-2/settlement, which are not here',
      'C: it counts a change from before the time that is looked at',
    ])
  })

  test('what was silent before the time that is looked at is not told as silence', () => {
    const silence = { ...ten, id: 'S', watches: 'silence', value: 120, validFrom: -1000 * hourMs } as const
    expect(compared([silence]).levels[0]?.fate).toBe('never')
  })
})

import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { WatchedValue } from '#domain/alerts/episode.ts'
import { beginLevels } from '#domain/alerts/fold-levels.ts'
import {
  beginGroup,
  beginningEpochMs,
  episodesInGroup,
  type GroupedLevel,
  type LevelGroup,
} from '#domain/alerts/level-group.ts'
import { rewindTo } from '#domain/alerts/rewind-group.ts'
import { settle } from '#domain/alerts/settle-group.ts'
import { reachesBackTo, takeValues } from '#domain/alerts/take-values.ts'
import { levelFor } from '../../support/level-for.ts'

const minute = 60_000
const own = 1
const other = 2

const levels: readonly GroupedLevel[] = [
  levelFor({ id: 'plain', value: 5 }),
  levelFor({ id: 'held', value: 4, holdReadings: 3, hysteresisShare: 0.2, longestGapMinutes: 25 }),
  levelFor({ id: 'steady', direction: 'either', value: 4, holdMinutes: 40 }),
  levelFor({ id: 'rate', watches: 'rate', value: 150, windowMinutes: 60 }),
  levelFor({ id: 'change', watches: 'change', value: 5, changeSince: 200 * minute, validFrom: 200 * minute }),
  levelFor({
    id: 'difference',
    watches: 'difference',
    against: 'P-2/settlement',
    value: 3,
    windowMinutes: 45,
  }),
  levelFor({ id: 'silence', watches: 'silence', value: 30 }),
].map((level) => ({
  level,
  series: own,
  against: level.watches === 'difference' ? other : null,
  inForce: [{ fromEpochMs: level.validFrom, untilEpochMs: level.validUntil }],
}))

interface Given extends WatchedValue {
  readonly series: number
}

/** What arrives, as a store holds it: the first value of an instant stays. */
function createFolding(keptValues: number) {
  const held = new Map<number, Map<number, WatchedValue>>([
    [own, new Map()],
    [other, new Map()],
  ])
  let group: LevelGroup = beginGroup(levels)
  let anew = 0
  let rewound = 0
  const from = (series: number, fromEpochMs: number) =>
    [...(held.get(series)?.values() ?? [])]
      .filter(({ atEpochMs }) => atEpochMs >= fromEpochMs)
      .toSorted((one, two) => one.atEpochMs - two.atEpochMs)
  const allFrom = (series: readonly number[], fromEpochMs: number) =>
    new Map(series.map((one) => [one, from(one, fromEpochMs)]))
  return {
    held,
    anew: () => anew,
    rewound: () => rewound,
    group: () => group,
    take(batch: readonly Given[]) {
      for (const { series, ...value } of batch)
        if (!held.get(series)?.has(value.atEpochMs)) held.get(series)?.set(value.atEpochMs, value)
      const touched = [...new Set(batch.map(({ series }) => series))]
      const fromEpochMs = Math.min(...batch.map(({ atEpochMs }) => atEpochMs))
      const near = reachesBackTo(group, fromEpochMs)
        ? takeValues(levels, group, allFrom(touched, fromEpochMs), fromEpochMs)
        : null
      const back = near === null ? rewindTo(levels, group, fromEpochMs) : null
      const again =
        back === null
          ? null
          : takeValues(levels, back.group, allFrom([own, other], back.fromEpochMs), back.fromEpochMs)
      if (again !== null) rewound++
      else if (near === null) anew++
      const next =
        near ??
        again ??
        takeValues(levels, beginGroup(levels), allFrom([own, other], beginningEpochMs), beginningEpochMs)
      if (next === null) throw new Error('all at once cannot be out of order')
      // Kept as text between starts: what is plain data survives that.
      group = JSON.parse(JSON.stringify(settle(levels, next, keptValues)))
    },
  }
}

const asOfEpochMs = 500 * 10 * minute

function expected(held: ReadonlyMap<number, ReadonlyMap<number, WatchedValue>>) {
  const sorted = (series: number) =>
    [...(held.get(series)?.values() ?? [])].toSorted((one, two) => one.atEpochMs - two.atEpochMs)
  const folding = beginLevels(
    levels.map(({ level }) => level),
    [],
  )
  folding.take(
    new Map([
      ['P-1/settlement', sorted(own)],
      ['P-2/settlement', sorted(other)],
    ]),
  )
  return folding.episodes(asOfEpochMs)
}

/** A walk of two series with gaps, receipts within minutes, some readings hours late. */
const readings = fc
  .array(
    fc.record({
      step: fc.integer({ min: -2, max: 2 }),
      gap: fc.integer({ min: 1, max: 12 }).map((n) => (n > 10 ? n : 1)),
      lateMinutes: fc.integer({ min: 0, max: 80 }).map((n) => (n === 80 ? 400 : n % 10)),
      missing: fc.integer({ min: 0, max: 15 }).map((n) => n === 0),
      ofOther: fc.boolean(),
    }),
    { minLength: 20, maxLength: 420 },
  )
  .map((steps) => {
    let at = 0
    let value = 2
    return steps.map(({ step, gap, lateMinutes, missing, ofOther }): Given => {
      at += gap * 10 * minute
      value = Math.max(-8, Math.min(9, value + step))
      return {
        series: ofOther ? other : own,
        atEpochMs: at,
        receivedAtEpochMs: at + lateMinutes * minute,
        value: missing ? null : ofOther ? value / 2 : value,
      }
    })
  })

const arrivals = fc
  .tuple(
    readings,
    fc.array(fc.nat({ max: 1_000_000 }), { minLength: 0, maxLength: 12 }),
    fc.integer({ min: 1, max: 40 }),
  )
  .map(([all, swaps, size]) => {
    const batches: Given[][] = []
    for (let from = 0; from < all.length; from += size) batches.push(all.slice(from, from + size))
    // Some batches come again, and some change places with a later one: back-filled, shuffled, repeated.
    for (const swap of swaps) {
      const one = swap % batches.length
      const two = (one + 1 + (swap % 5)) % batches.length
      const first = batches[one] as Given[]
      const second = batches[two] as Given[]
      if (swap % 3 === 0) batches.push(first)
      else {
        batches[one] = second
        batches[two] = first
      }
    }
    return batches
  })

describe('a group of levels', () => {
  it('makes of values in any order, split and repeated, the episodes of all of them at once', () => {
    let settled = 0
    let anew = 0
    let rewound = 0
    let held = 0
    fc.assert(
      fc.property(arrivals, (batches) => {
        const folding = createFolding(6)
        for (const batch of batches) folding.take(batch)
        const episodes = expected(folding.held)
        for (const [at, { level }] of levels.entries()) {
          const made = episodesInGroup(folding.group(), at, asOfEpochMs)
          expect(made, level.id).toEqual(episodes.get(level.id))
          held += made.filter(({ heldAtEpochMs }) => heldAtEpochMs !== null).length
        }
        if (folding.group().settledUntilEpochMs > beginningEpochMs) settled++
        anew += folding.anew()
        rewound += folding.rewound()
      }),
      { seed: 20261126, numRuns: 150 },
    )
    // The property says little unless values were settled, some came before them, and levels were reached.
    expect(settled).toBeGreaterThan(10)
    expect(anew).toBeGreaterThan(10)
    expect(rewound).toBeGreaterThan(10)
    expect(held).toBeGreaterThan(500)
  })

  it('keeps no more than twice the values that it needs at hand, however many come', () => {
    const folding = createFolding(64)
    for (let n = 1; n <= 400; n++)
      folding.take([
        { series: own, atEpochMs: n * minute, receivedAtEpochMs: n * minute, value: n % 7 },
        { series: other, atEpochMs: n * minute, receivedAtEpochMs: n * minute, value: 1 },
      ])
    expect(folding.anew()).toBe(0)
    for (const values of folding.group().tails) expect(values.length).toBeLessThan(2 * 64 + 62)
    expect(folding.group().checkpoints.length).toBeLessThan(12)
  })
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { beginSilence, foldSilence, silenceOn, silencesOf } from '#domain/alerts/fold-silence.ts'
import { levelFor } from '../../support/level-for.ts'

const minute = 60_000
const silent = levelFor({ watches: 'silence', value: 10 })
const receipts = (...given: readonly (readonly [at: number, received?: number])[]) =>
  given.map(([at, received]) => ({ atEpochMs: at * minute, receivedAtEpochMs: (received ?? at) * minute }))
const spans = (level: typeof silent, given: ReturnType<typeof receipts>, asOf: number) =>
  foldSilence(level, given, asOf * minute).map((one) => [
    one.crossedAtEpochMs / minute,
    one.leftAtEpochMs === null ? null : one.leftAtEpochMs / minute,
    one.peakValue,
  ])

describe('foldSilence', () => {
  test('from the last instant known and what may pass, until the next receipt', () => {
    expect(spans(silent, receipts([0], [8], [18], [30], [31]), 35)).toEqual([[28, 30, 12]])
    expect(spans(silent, receipts([0], [8]), 18)).toEqual([])
    expect(spans(silent, receipts([0], [8]), 19)).toEqual([[18, null, 11]])
  })

  test('old readings handed in later neither end a silence nor undo it', () => {
    expect(spans(silent, receipts([0], [2, 40], [5, 40], [41]), 45)).toEqual([[10, 41, 40]])
    expect(
      spans(silent, receipts([0], ...Array.from({ length: 60 }, (_, at) => [at, 61] as const)), 62),
    ).toEqual([[10, 61, 61]])
  })

  test('it ends once readings have come again for long enough', () => {
    const held = { ...silent, holdMinutes: 15 }
    const given = receipts([0], [20], [28], [45], [50], [58], [60], [65])
    // Silent from 10 on; readings from 20 to 28 end nothing, for after them it is silent again until 45.
    expect(spans(held, given, 80)).toEqual([
      [10, 60, 20],
      [75, null, 15],
    ])
    expect(spans(silent, given, 70)).toEqual([
      [10, 20, 20],
      [38, 45, 17],
    ])
  })

  test('a clock that runs fast hides no silence', () => {
    expect(spans(silent, receipts([0], [500, 5]), 30)).toEqual([[15, null, 25]])
  })

  test('one that never gave anything is silent too, and a level that ends ends it', () => {
    expect(spans({ ...silent, validUntil: 60 * minute }, [], 100)).toEqual([[10, 60, 60]])
    expect(spans({ ...silent, validFrom: 50 * minute }, receipts([0]), 100)).toEqual([[50, null, 100]])
  })

  test('in batches as in one', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(200), fc.nat(60)), { maxLength: 30 }),
        fc.nat(300),
        (given, asOf) => {
          const all = given
            .map(([at, delay]) => ({ atEpochMs: at * minute, receivedAtEpochMs: (at + delay) * minute }))
            .filter(({ receivedAtEpochMs }) => receivedAtEpochMs <= asOf * minute)
            .toSorted((one, other) => one.receivedAtEpochMs - other.receivedAtEpochMs)
          let state = beginSilence(silent)
          for (const one of all) {
            state = silenceOn(state, one)
            silencesOf(state, one.receivedAtEpochMs)
          }
          const whole = foldSilence(silent, all.toReversed(), asOf * minute)
          expect(silencesOf(state, asOf * minute)).toEqual(whole)
          // Plainly: an instant is silent where nothing received by then tells of the ten minutes before it.
          for (let at = 11; at < asOf; at += 7) {
            const known = all.filter(({ receivedAtEpochMs }) => receivedAtEpochMs <= at * minute)
            const last = Math.max(0, ...known.map((one) => Math.min(one.atEpochMs, one.receivedAtEpochMs)))
            const told = whole.some(
              ({ crossedAtEpochMs, leftAtEpochMs }) =>
                crossedAtEpochMs < at * minute && at * minute < (leftAtEpochMs ?? Infinity),
            )
            if (!known.some((one) => one.receivedAtEpochMs === at * minute))
              expect(told).toBe(at * minute - last > 10 * minute)
          }
        },
      ),
      { seed: 6, numRuns: 300 },
    )
  })
})

import fc from 'fast-check'
import { expect, test } from 'vitest'
import { ChannelSpans } from '../../../api/store/channel-spans.ts'
import { toBlock } from '../../contract/reading-batches.ts'

type Pair = [channel: number, atEpochMs: number]
const block = (pairs: readonly Pair[]) =>
  toBlock(pairs.map(([channel, atEpochMs]) => ({ channel, atEpochMs, raw: 0 })))
const spansOf = (...blocks: (readonly Pair[])[]) => {
  const spans = new ChannelSpans()
  for (const pairs of blocks) spans.add(block(pairs), 4)
  return spans
}

const pairs = fc.array(
  fc.tuple(
    fc.integer({ min: 1, max: 4 }),
    // Before and after 1970, across the halves of the 64 bits, and often the same.
    fc.oneof(fc.integer({ min: -3, max: 3 }), fc.integer({ min: -5e12, max: 8e12 })),
  ) as fc.Arbitrary<Pair>,
  { maxLength: 12 },
)

test('spans agree with the plain way of finding them, however the readings are cut into blocks', () => {
  fc.assert(
    fc.property(pairs, fc.nat(12), (all, cut) => {
      const spans = spansOf(all.slice(0, cut), all.slice(cut))
      const latest = new Map<number, number>()
      let increasing = true
      let stepsBack = 0
      all.forEach(([channel, at], i) => {
        if (at <= (latest.get(channel) ?? Number.NEGATIVE_INFINITY)) increasing = false
        latest.set(channel, Math.max(at, latest.get(channel) ?? at))
        if (i > 0 && at < (all[i - 1] as Pair)[1]) stepsBack++
      })
      expect([spans.count, spans.increasing, spans.stepsBack]).toEqual([all.length, increasing, stepsBack])
      for (const channel of [1, 2, 3, 4]) {
        const micros = all.filter(([of]) => of === channel).map(([, at]) => at * 1000)
        expect([spans.first[channel], spans.last[channel]]).toEqual([
          Math.min(...micros),
          Math.max(...micros),
        ])
      }
      expect([spans.firstMicros, spans.lastMicros]).toEqual([
        Math.min(...all.map(([, at]) => at * 1000)),
        Math.max(...all.map(([, at]) => at * 1000)),
      ])
    }),
    { seed: 20270201, numRuns: 300 },
  )
})

test('no overlap means that no key is in both', () => {
  fc.assert(
    fc.property(pairs, pairs, (one, other) => {
      const shared = one.some(([channel, at]) => other.some((pair) => pair[0] === channel && pair[1] === at))
      if (shared) expect(spansOf(one).overlaps(spansOf(other))).toBe(true)
      expect(spansOf(one).overlaps(spansOf(other))).toBe(spansOf(other).overlaps(spansOf(one)))
    }),
    { seed: 20270201, numRuns: 300 },
  )
})

test('files that follow one another do not overlap; touching ones do; channels are looked at apart', () => {
  const january = spansOf([
    [1, 0],
    [1, 10],
  ])
  expect(january.overlaps(spansOf([[1, 11]]))).toBe(false)
  expect(january.overlaps(spansOf([[1, -1]]))).toBe(false)
  expect(january.overlaps(spansOf([[1, 10]]))).toBe(true)
  expect(january.overlaps(spansOf([[2, 5]]))).toBe(false)
  const both = spansOf([[1, 0]])
  both.merge(spansOf([[3, 7]]))
  expect(both.overlaps(spansOf([[3, 7]]))).toBe(true)
})

test('an instant beyond what a double holds exactly is our own mistake', () => {
  expect(() => spansOf([[1, 2 ** 53 / 1000]])).toThrow('out of range')
})

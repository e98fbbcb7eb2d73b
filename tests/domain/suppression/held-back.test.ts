import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Suppression } from '#domain/site/tables.ts'
import { type AlertSubject, comesBack, sendingOf, withEnds } from '#domain/suppression/held-back.ts'

const hour = 3_600_000
const subject: AlertSubject = { level: 'L1', series: 'SP-1/settlement', instrument: 'SP-1', logger: 'LG-1' }
const suppression = (
  id: string,
  from: number,
  until: number,
  change: Partial<Suppression> = {},
): Suppression => ({
  id,
  covers: 'instrument',
  name: 'SP-1',
  fromAt: from * hour,
  untilAt: until * hour,
  reason: 'Mark is rebuilt',
  author: 'A. Reed',
  ...change,
})
const sending = (list: readonly Suppression[], raised: number, now: number) =>
  sendingOf(subject, withEnds(list, []), raised * hour, now * hour)

describe('what is not sent', () => {
  it.each([
    ['level', 'L1', true],
    ['series', 'SP-1/settlement', true],
    ['instrument', 'SP-1', true],
    ['logger', 'LG-1', true],
    ['level', 'SP-1', false],
    ['logger', 'LG-2', false],
  ] as const)('is what a suppression of a %s %s names: %s', (covers, name, held) => {
    expect(sending([suppression('S', 0, 9, { covers, name })], 1, 2).heldBy.length > 0).toBe(held)
  })

  it('is held from its first instant to before its last, then told as if raised then', () => {
    const list = [suppression('S', 2, 5)]
    expect(sending(list, 1, 1.5)).toEqual({ heldBy: [], fromEpochMs: 1 * hour })
    expect(sending(list, 3, 3)).toMatchObject({ heldBy: [{ untilEpochMs: 5 * hour }], fromEpochMs: 5 * hour })
    expect(sending(list, 3, 5)).toEqual({ heldBy: [], fromEpochMs: 5 * hour })
    expect(sending(list, 6, 7)).toEqual({ heldBy: [], fromEpochMs: 6 * hour })
    expect(sending(list, 1, 9)).toEqual({ heldBy: [], fromEpochMs: 5 * hour })
  })

  it('is held by all of several that overlap or adjoin, until the last of them ends', () => {
    const list = [
      suppression('A', 0, 4),
      suppression('B', 3, 6),
      suppression('C', 6, 8),
      suppression('D', 9, 12),
    ]
    expect(sending(list, 1, 3.5).heldBy.map((one) => one.suppression.id)).toEqual(['A', 'B'])
    expect(sending(list, 1, 3.5).fromEpochMs).toBe(8 * hour)
    expect(sending(list, 1, 8)).toEqual({ heldBy: [], fromEpochMs: 8 * hour })
  })

  it('goes on when a person ends it, and comes back only where nothing else holds it', () => {
    const ends = [{ suppression: 'A', at: 2 * hour, author: 'B', reason: 'Done' }]
    const [a, b] = withEnds([suppression('A', 0, 4), suppression('B', 1, 3)], ends)
    if (!a || !b) throw new Error('two')
    expect(a.untilEpochMs).toBe(2 * hour)
    const waiting = [
      { subject, raisedAtEpochMs: 1 * hour },
      { subject: { ...subject, instrument: 'SP-2' }, raisedAtEpochMs: 1 * hour },
    ]
    expect(comesBack(waiting, a, [a, b])).toEqual([])
    expect(comesBack(waiting, b, [a, b])).toEqual([waiting[0]])
  })

  it('is never before it was raised, and never held at the instant from which it is sent', () => {
    const list = fc.array(fc.tuple(fc.nat(50), fc.integer({ min: 1, max: 20 })), { maxLength: 6 })
    fc.assert(
      fc.property(list, fc.nat(60), fc.nat(60), (spans, raised, later) => {
        const all = withEnds(
          spans.map(([from, length], place) => suppression(String(place), from, from + length)),
          [],
        )
        const found = sendingOf(subject, all, raised * hour, (raised + later) * hour)
        expect(found.fromEpochMs).toBeGreaterThanOrEqual(raised * hour)
        expect(sendingOf(subject, all, raised * hour, found.fromEpochMs).heldBy).toEqual([])
        expect(found.heldBy.length > 0).toBe(found.fromEpochMs > (raised + later) * hour)
      }),
      { seed: 6, numRuns: 500 },
    )
  })
})

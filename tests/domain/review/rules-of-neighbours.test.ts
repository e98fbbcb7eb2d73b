import { describe, expect, test } from 'vitest'
import type { Neighbour, Trace } from '#domain/review/review-case.ts'
import { beside, drifting, found, madeTraces, of, stepped, still } from './made-traces.ts'

const { crack, mark, tiltOf, world } = madeTraces()

describe('the same quantity beside it', () => {
  const weigh = (own: Trace, ...same: Neighbour[]) => found('same-quantity', world.caseOf(own, { same }))

  test('that moved with it speaks for the ground', () => {
    const evidence = weigh(mark(stepped(8)), beside(mark(stepped(8), 'N'), 3))
    expect(of(evidence, 'ground')).toBeGreaterThan(5)
    expect(of(evidence, 'sensor')).toBeLessThan(-5)
  })

  test('that differs by no change told from chance still has an error: never 0.00 to 0.00', () => {
    const evidence = weigh(mark(stepped(8)), beside(mark(stepped(8), 'N'), 3))
    const { value, low, high } = evidence[0]?.figure ?? { value: Number.NaN, low: null, high: null }
    expect(low).toBeLessThan(value)
    expect(high).toBeGreaterThan(value)
  })

  test('that stood still speaks for the sensor, and the less the further it is off', () => {
    const at = (metres: number) => of(weigh(mark(stepped(8)), beside(mark(still, 'N'), metres)), 'sensor')
    expect(at(2)).toBeGreaterThan(4)
    expect(at(20)).toBeLessThan(1)
    expect(at(20)).toBeGreaterThan(0)
  })

  test('that moved while it stood still does not speak against the ground', () => {
    const two = [beside(mark(stepped(8), 'N'), 3), beside(mark(stepped(8), 'M'), 4)]
    for (const same of [two.slice(1), two])
      expect(of(weigh(mark(still), ...same), 'ground')).toBeGreaterThanOrEqual(0)
  })

  test('two that go together while it drifts away from both name it', () => {
    const level = (point: string) => beside(tiltOf(still, point), 2)
    const evidence = weigh(tiltOf(drifting(0.03)), level('N'), level('M'))
    expect(evidence[0]?.sentence).toMatch(/^N, M go together, and it parted from each of them by \+0\.0[23]/)
  })
})

describe('another quantity and readings by hand', () => {
  test('a crack that opens with a mark bears it out; one that stands still beside says little', () => {
    const weigh = (course: (h: number) => number, metres: number) =>
      found('other-quantity', world.caseOf(mark(stepped(8)), { other: [beside(crack(course), metres)] }))
    expect(of(weigh(stepped(0.6), 3), 'ground')).toBe(10)
    expect(of(weigh(stepped(0.6), 3), 'sensor')).toBe(-8)
    expect(of(weigh(still, 1), 'ground')).toBeLessThan(-3)
    expect(of(weigh(still, 14), 'ground')).toBeGreaterThan(-1.5)
  })

  test('a tape that parts from the sensor blames it, unless it was the tape that moved', () => {
    const pressure = (course: (h: number) => number, everyHours = 1) =>
      world.trace({ measure: 'pore-pressure', course: (h) => 80 + course(h), everyHours })
    const weigh = (own: (h: number) => number, hand: (h: number) => number) =>
      found('by-hand', world.caseOf(pressure(own), { byHand: [beside(pressure(hand, 96), 1)] }))
    expect(of(weigh(drifting(6), still), 'sensor')).toBeGreaterThan(10)
    expect(of(weigh(drifting(6), still), 'ground')).toBeLessThan(0)
    expect(of(weigh(still, drifting(6)), 'ground')).toBeGreaterThan(0)
    expect(of(weigh(drifting(6), drifting(6)), 'ground')).toBeGreaterThan(8)
  })
})

import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { agreementOf, agreementsOf } from '#domain/review/agreement.ts'
import type { Neighbour, Trace } from '#domain/review/review-case.ts'
import { hourMs, makeWorld } from './made-world.ts'

const world = makeWorld(17, 60)
const still = () => 0
const drift =
  (size: number, fromDay = 30) =>
  (h: number) =>
    (Math.max(0, h - fromDay * 24) / (30 * 24)) * size
const mark = (course: (h: number) => number, point = 'X-1') =>
  world.trace({ measure: 'settlement', course, point, everyHours: 24 })
const beside = (trace: Trace, more: Partial<Neighbour> = {}): Neighbour => ({
  ...trace,
  distanceMetres: 5,
  aboveMetres: 0,
  sameStratum: true,
  ...more,
})
const held = (own: (h: number) => number, other: (h: number) => number, more: Partial<Neighbour> = {}) => {
  const neighbour = beside(mark(other, 'N-1'), more)
  return agreementOf(world.caseOf(mark(own), { same: [neighbour] }), neighbour)
}

describe('a neighbour', () => {
  test('moves with it, or otherwise, by the sign of its change', () => {
    expect(held(drift(12), drift(9)).kind).toBe('moves-with')
    expect(held(drift(12), drift(9)).correlation?.correlation).toBeGreaterThan(0.5)
    expect(held(drift(12), drift(-9)).kind).toBe('moves-otherwise')
    expect(held(drift(12), drift(-9)).sentence).toContain('the other way')
  })

  test('stands still while it moved, and of two that stand still nothing more is said', () => {
    const found = held(drift(12), still)
    expect(found.kind).toBe('still')
    expect(found.change?.low).toBeLessThan(0)
    expect(found.change?.high).toBeGreaterThan(0)
    expect(held(still, still).kind).toBe('both-still')
    expect(held(still, drift(12)).kind).toBe('moves-otherwise')
  })

  test('that swings alike hides a drift of one of the two: they are said to have parted, with how far', () => {
    const swing = (h: number) => 12 * Math.sin(h / 60)
    const found = held(
      (h) => swing(h) + drift(-6)(h),
      (h) => swing(h),
    )
    expect(found.sentence).toMatch(/X-1 parted from it by −[56]\.\d+ mm/)
    expect(found.difference?.size).toBeLessThan(-4)
    expect(held(swing, swing).sentence).not.toContain('parted')
  })

  test('that changed a month earlier does not move with it', () => {
    const early = (h: number) => (h < 12 * 24 ? 0 : 8)
    const late = (h: number) => (h < 45 * 24 ? 0 : 8)
    expect(held(late, early)).toMatchObject({ kind: 'moves-otherwise' })
    expect(held(late, early).sentence).toContain('33 days apart')
  })

  test('too noisy, too short, silent or not read at all: each said as what it is', () => {
    const noise = (h: number) => 25 * Math.sin(h * 12.9898) * Math.cos(h * 4.1414)
    expect(held(drift(12), noise)).toMatchObject({ kind: 'cannot-say' })
    expect(held(drift(12), noise).sentence).toContain('too noisy')
    const full = mark(still, 'N-1')
    const cut = (from: number, until: number) => ({
      atEpochMs: full.atEpochMs.slice(from, until),
      values: full.values.slice(from, until),
    })
    expect(held(drift(12), still, cut(54, 60))).toMatchObject({ kind: 'cannot-say' })
    expect(held(drift(12), still, cut(0, 40))).toMatchObject({ kind: 'silent' })
    expect(held(drift(12), still, cut(0, 0))).toMatchObject({ kind: 'silent', change: null })
  })

  test('of another quantity has no sign to be held against it', () => {
    const tilt = beside(world.trace({ measure: 'tilt', course: drift(-0.2), point: 'N-1' }))
    const found = agreementOf(world.caseOf(mark(drift(12)), { other: [tilt] }), tilt)
    expect(found.kind).toBe('moves-with')
  })

  test('is told once, though it is a neighbour in two ways', () => {
    const one = beside(mark(still, 'N-1'))
    expect(agreementsOf(world.caseOf(mark(drift(3)), { same: [one], byHand: [one] }))).toHaveLength(1)
    expect(agreementsOf(world.caseOf(mark(drift(3))))).toEqual([])
  })

  test('agrees the same whatever constant is added to either', () => {
    const [own, other] = [mark(drift(12)), mark(drift(5), 'N-1')]
    const plain = agreementOf(world.caseOf(own, {}), beside(other))
    fc.assert(
      fc.property(fc.integer({ min: -2000, max: 2000 }), fc.integer({ min: -2000, max: 2000 }), (a, b) => {
        const moved = agreementOf(
          world.caseOf({ ...own, values: own.values.map((value) => value + a) }, {}),
          beside({ ...other, values: other.values.map((value) => value + b) }),
        )
        expect(moved.kind).toBe(plain.kind)
        expect(moved.correlation?.correlation).toBeCloseTo(plain.correlation?.correlation ?? 0, 6)
        expect(moved.change?.size).toBeCloseTo(plain.change?.size ?? 0, 6)
        expect(moved.lagHours).toEqual(plain.lagHours)
      }),
      { seed: 9, numRuns: 25 },
    )
  })
})

test('a lag is told in hours with its interval', () => {
  const wave = (late: number) => (h: number) => 4 * Math.sin((2 * Math.PI * (h - late)) / (11 * 24))
  const found = held(wave(0), wave(48))
  expect(found.lagHours?.low).toBeLessThanOrEqual(48)
  expect(found.lagHours?.high).toBeGreaterThanOrEqual(48)
  expect(found.lagHours?.lag).toBe(48)
  expect(hourMs).toBe(3_600_000)
})

test('of a neighbour without a movement an interval is told, not nought', () => {
  const { change, kind } = held(still, still)
  expect(kind).toBe('both-still')
  expect(change?.low).toBeLessThan(-0.05)
  expect(change?.high).toBeGreaterThan(0.05)
})

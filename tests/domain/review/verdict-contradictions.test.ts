import { describe, expect, test } from 'vitest'
import { weighCase } from '#domain/review/rank-causes.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { contradictionsOf } from '#domain/review/verdict-contradictions.ts'
import type { VerdictToJudge } from '#domain/review/verdict-to-judge.ts'
import { evidenceRows, weighedEvidence } from '#domain/site/verdict-evidence.ts'
import { type Course, fromEpochMs, hourMs, makeWorld } from './made-world.ts'

const day = (number: number) => fromEpochMs + number * 24 * hourMs
const verdict = (some: Partial<VerdictToJudge>): VerdictToJudge => ({
  verdict: 'doubtful',
  cause: 'sensor',
  fromEpochMs: day(20),
  untilEpochMs: null,
  foundAtEpochMs: day(30),
  evidence: [],
  ...some,
})
const foundBy = (judged: VerdictToJudge, reviewed: ReviewCase) =>
  contradictionsOf(judged, reviewed, weighCase(reviewed, 'value'))
const kindsBy = (...given: Parameters<typeof foundBy>) => foundBy(...given).map(({ kind }) => kind)

/** Two pressures beside each other, of which the first is off by `apart`. */
function pair(seed: number, apart: Course, share: Course = () => 0) {
  const world = makeWorld(seed, 60)
  const course: Course = (h) => 80 + world.tideMetres(h) + share(h)
  return world.caseOf(world.trace({ measure: 'pore-pressure', course: (h) => course(h) + apart(h) }), {
    same: world.beside(() => ({ measure: 'pore-pressure', course }), 1, 4),
    drivers: world.drivers,
    logger: world.logger(),
  })
}

describe('a verdict that lays it on the sensor', () => {
  const within = (from: number, until: number, size: number) => (h: number) =>
    h >= from * 24 && h < until * 24 ? size : 0

  test('is contradicted when the sensor stands to its neighbour again as before, with how near', () => {
    const found = foundBy(verdict({}), pair(1, within(20, 33, 3)))
    const again = found.find(({ kind }) => kind === 'agrees-again')
    expect(again?.sentence).toMatch(/^It had parted from N-1 by \+[23]\.\d\d kPa .* over the last 15 days/)
    expect(Math.abs(again?.figure.value ?? 9)).toBeLessThan(0.1)
    expect(again?.figure.low).toBeLessThan(again?.figure.value ?? 0)
  })

  test('is not while it stays off, nor where the verdict itself ended', () => {
    expect(kindsBy(verdict({}), pair(2, within(20, 60, 3)))).not.toContain('agrees-again')
    expect(kindsBy(verdict({ untilEpochMs: day(33) }), pair(1, within(20, 33, 3)))).not.toContain(
      'agrees-again',
    )
  })

  test('is contradicted when a neighbour bears the movement out afterwards, and not by what was known then', () => {
    // Both fall from day 20 on: what stands beside it goes with it.
    const moved = pair(
      3,
      () => 0,
      (h) => -0.4 * Math.max(0, h / 24 - 20),
    )
    const found = foundBy(verdict({ verdict: 'rejected' }), moved)
    expect(found.find(({ kind }) => kind === 'borne-out')?.sentence).toMatch(
      /^It was rejected, and is borne out: /,
    )
    expect(found.map(({ kind }) => kind)).toContain('overtaken')
    const table = weighCase(moved, 'value')
    const known = evidenceRows('V', weighedEvidence(table, { fromEpochMs, untilEpochMs: day(30) }))
    expect(kindsBy(verdict({ verdict: 'rejected', evidence: known }), moved)).toEqual([])
  })

  test('an accepted reading needs nothing to bear it out', () => {
    const moved = pair(
      3,
      () => 0,
      (h) => -0.4 * Math.max(0, h / 24 - 20),
    )
    expect(kindsBy(verdict({ verdict: 'accepted', cause: 'ground' }), moved)).toEqual([])
  })
})

describe('a verdict that lays it on the weather', () => {
  /** A tilt that swings with warmth from day 20 on, and stays over by `rest` at the end. */
  const tilted = (seed: number, rest: number) => {
    const world = makeWorld(seed, 60)
    return world.caseOf(
      world.trace({
        measure: 'tilt',
        course: (h) => (h < 480 ? 0 : 0.004 * (world.airDegC(h) - 14) + rest),
      }),
      { drivers: world.drivers, logger: world.logger() },
    )
  }

  test('is contradicted by a change that is there on later days with the weather of before', () => {
    const found = foundBy(verdict({ cause: 'weather' }), tilted(4, 0.08))
    const stays = found.find(({ kind }) => kind === 'change-stays')
    expect(stays?.sentence).toMatch(/weather went back: on \d+ later days with the air temperature as before/)
    expect(stays?.figure.value).toBeGreaterThan(0.05)
    expect(stays?.figure.value).toBeLessThan(0.11)
  })

  test('is not where it went back with the weather', () => {
    for (const seed of [5, 6, 7])
      expect(kindsBy(verdict({ cause: 'weather' }), tilted(seed, 0))).not.toContain('change-stays')
  })
})

test('what was not told apart is overtaken when one cause leads clearly, and not by a lead of then', () => {
  // A dip beside it, which stands still, tells it from the ground.
  const drifting = pair(8, (h) => 0.2 * Math.max(0, h / 24 - 20))
  const drift = { ...drifting, byHand: drifting.same }
  const table = weighCase(drift, 'value')
  expect(table.ranked[0]?.cause).toBe('sensor')
  const open = verdict({ cause: 'not told apart' })
  const [found] = foundBy(open, drift)
  expect(found?.kind).toBe('overtaken')
  expect(found?.sentence).toMatch(
    /^The causes were not told apart; the evidence now puts the sensor first, \+/,
  )
  expect(found?.figure.value).toBeGreaterThanOrEqual(10)
  const known = evidenceRows('V', weighedEvidence(table, { fromEpochMs, untilEpochMs: day(30) }))
  expect(foundBy({ ...open, evidence: known }, drift)).toEqual([])
})

test('a verdict from before there were causes is not said to be contradicted by a ranking', () => {
  const drift = pair(8, (h) => 0.2 * Math.max(0, h / 24 - 20))
  expect(kindsBy(verdict({ cause: null, verdict: 'accepted' }), drift)).toEqual([])
})

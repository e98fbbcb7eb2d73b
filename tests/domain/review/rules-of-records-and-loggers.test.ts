import { describe, expect, test } from 'vitest'
import { weighCase } from '#domain/review/rank-causes.ts'
import type { ReviewCase } from '#domain/review/review-case.ts'
import { dayMs, drifting, found, madeTraces, of, stepped, still } from './made-traces.ts'
import { fromEpochMs, hourMs } from './made-world.ts'

const { tiltOf, world } = madeTraces()

describe('records, works and the logger', () => {
  const at = (days: number) => fromEpochMs + days * dayMs
  const visit = (distanceMetres: number | null, days = 30) =>
    [{ kind: 'visit', atEpochMs: at(days), text: 'Bracket moved', distanceMetres }] as const

  test('a visit at the instrument on the day of a step weighs most, one further off or at another time less or nothing', () => {
    const weigh = (notes: ReviewCase['notes']) =>
      of(found('records-of-change', world.caseOf(tiltOf(stepped(0.1)), { notes })), 'sensor')
    expect(weigh(visit(0))).toBe(10)
    expect(weigh(visit(12))).toBe(5)
    expect(weigh(visit(50))).toBe(0)
    expect(weigh(visit(null))).toBe(0)
    expect(weigh(visit(0, 12))).toBe(0)
  })

  test('works that began shortly before speak for the ground, those that began after do not', () => {
    const weigh = (days: number) =>
      of(
        found(
          'works-and-diary',
          world.caseOf(tiltOf(stepped(0.1)), {
            notes: [{ kind: 'works', atEpochMs: at(days), text: 'Digging began', distanceMetres: 20 }],
          }),
        ),
        'ground',
      )
    expect(weigh(27)).toBe(3)
    expect(weigh(35)).toBe(0)
    expect(weigh(5)).toBe(0)
  })

  test('several channels that step together are the logger; two that took each other’s place are wires', () => {
    const together = world.caseOf(tiltOf(stepped(0.1)), { ofLogger: [tiltOf(stepped(-0.3), 'X-2')] })
    expect(of(found('other-channels', together), 'logger')).toBe(10)
    const exchanged = world.caseOf(tiltOf(stepped(0.4)), {
      ofLogger: [tiltOf((h) => 0.4 - stepped(0.4)(h), 'X-2')],
    })
    expect(of(found('other-channels', exchanged), 'logger')).toBe(0)
    expect(of(found('exchanged-channels', exchanged), 'sensor')).toBe(18)
    expect(found('exchanged-channels', together)).toEqual([])
  })

  test('a link that brings some is the radio; a logger without power, or one channel alone, is not', () => {
    const silent = (logger: Parameters<typeof world.logger>[0], given: Partial<ReviewCase> = {}) =>
      weighCase(world.caseOf(tiltOf(still), { logger: world.logger(logger), ...given }), 'silence').ranked[0]
        ?.cause
    const long = { fromEpochMs, untilEpochMs: fromEpochMs + 500 * hourMs }
    expect(silent({ inTime: 900, longestSilence: null, later: 400 })).toBe('radio')
    expect(
      silent({
        inTime: 900,
        longestSilence: long,
        battery: { volts: 2.7, leastVolts: 3, atEpochMs: fromEpochMs },
      }),
    ).toBe('logger')
    const trace = tiltOf(still)
    const cut = { ...trace, atEpochMs: trace.atEpochMs.slice(0, 1200), values: trace.values.slice(0, 1200) }
    expect(silent({}, { subject: cut })).toBe('sensor')
  })

  test('a clock within ten seconds a day is nothing to tell', () => {
    const weigh = (value: number) =>
      of(
        found(
          'logger-clock',
          world.caseOf(tiltOf(still), {
            logger: world.logger({ clockSecondsPerDay: { value, low: value - 2, high: value + 2 } }),
          }),
        ),
        'logger',
      )
    expect([weigh(5), weigh(11), weigh(41), weigh(-41)]).toEqual([0, 0, 18, 18])
  })

  test('a voltage that falls is the cells, told without a sign', () => {
    const volts = world.trace({ measure: 'battery-voltage', course: (h) => 3.6 - drifting(0.6)(h) })
    const steady = {
      ...volts,
      repeatability: 0.005,
      values: volts.values.map((_, at) => 3.6 - drifting(0.6)(at)),
    }
    expect(found('logger-cells', world.caseOf(steady))[0]?.sentence).toMatch(
      /^The voltage fell by 0\.\d+ *in/,
    )
  })
})

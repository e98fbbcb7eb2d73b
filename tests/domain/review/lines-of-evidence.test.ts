import { describe, expect, test } from 'vitest'
import type { Evidence } from '#domain/review/evidence.ts'
import { weighCase } from '#domain/review/rank-causes.ts'
import { madeCases } from './made-cases.ts'
import { madeReadings } from './made-single-readings.ts'
import { found, madeTraces, still } from './made-traces.ts'
import { fromEpochMs } from './made-world.ts'

/** Rules whose every line rests on an estimate; made cases hold no rain, tape, traverse: those are in their own tests. */
const estimated = new Set(['same-quantity', 'other-quantity'])
/** Figures that are counted. */
const counted = new Set(['delivery'])
const linesOf = (made: readonly { evidence: readonly Evidence[] }[]) =>
  made.flatMap(({ evidence }) => evidence)
const lines: readonly Evidence[] = [
  ...madeCases(1, 2).flatMap(({ reviewed, oddity }) => linesOf(weighCase(reviewed, oddity).ranked)),
  ...madeReadings(20_001, 2).flatMap(({ reviewed }) => linesOf(weighCase(reviewed, 'reading').ranked)),
]

describe('lines of evidence', () => {
  test('of what was found each leads to a picture', () => {
    const without = lines.filter(({ stands, picture }) => stands !== 'missing' && picture === null)
    expect([...new Set(without.map(({ rule, sentence }) => `${rule}: ${sentence}`))]).toEqual([])
    expect(new Set(lines.map(({ rule }) => rule)).size).toBeGreaterThan(15)
  })

  test('that rest on an estimate have their figure and its interval, told in the sentence with what it rests on', () => {
    const weighed = lines.filter(
      ({ rule, stands, figure }) =>
        stands !== 'missing' && (estimated.has(rule) || (figure !== null && !counted.has(rule))),
    )
    const bare = weighed.filter(({ figure }) => figure?.low == null)
    expect(bare.map(({ rule, sentence }) => `${rule}: ${sentence}`)).toEqual([])
    for (const { figure, sentence } of weighed) {
      if (!figure) continue
      expect(figure.low).toBeLessThanOrEqual(figure.value)
      expect(figure.high).toBeGreaterThanOrEqual(figure.value)
      expect(sentence).toMatch(/, 95 %: [+−].* to [+−].*, (by|its) .*\.$/)
    }
    expect(new Set(weighed.map(({ rule }) => rule)).size).toBeGreaterThanOrEqual(2)
  })

  test('are short enough to be kept with a verdict, whose sentences hold 1000 characters', () => {
    expect(Math.max(...lines.map(({ sentence }) => sentence.length))).toBeLessThan(700)
  })

  test('that count have no interval', () => {
    const found = lines.filter(({ rule, figure }) => counted.has(rule) && figure)
    expect(found.length).toBeGreaterThan(0)
    expect(found.every(({ figure }) => figure?.low === null && figure?.high === null)).toBe(true)
  })
})

describe('what is said of a logger', () => {
  const { tiltOf, world } = madeTraces()
  const lost = { inTime: 900, longestSilence: null }
  const weigh = (rule: string, logger: Parameters<typeof world.logger>[0]) =>
    found(rule, world.caseOf(tiltOf(still), { logger: world.logger(logger) }))

  test('leads to the network, where one beside it went silent to that one, which is named', () => {
    const silent = weigh('delivery', { ...lost, silentBeside: { silent: 1, of: 2, loggers: ['L-5'] } })
    expect(silent.at(-1)).toMatchObject({
      sentence: '1 of 2 loggers beside it went silent too (L-5).',
      picture: { kind: 'network', logger: 'L-5' },
    })
    expect(weigh('delivery', lost).at(-1)?.picture).toEqual({ kind: 'network', logger: 'L-1' })
    const [clock] = weigh('logger-clock', { clockSecondsPerDay: { value: 41, low: 39, high: 43 } })
    expect(clock).toMatchObject({
      figure: { low: 39, high: 43 },
      picture: { kind: 'network', logger: 'L-1' },
    })
    expect(clock?.sentence).toMatch(/Gain, 95 %: \+39\.0 to \+43\.0 s.d, by its stamps and their receipts\.$/)
  })

  test('of its cells leads to their voltage beside the readings, or to the network where none is named', () => {
    const cells = { volts: 2.7, leastVolts: 3, atEpochMs: fromEpochMs }
    expect(
      weigh('logger-cells', { battery: { ...cells, series: 'L-1/battery-voltage' } })[0]?.picture,
    ).toMatchObject({
      kind: 'history',
      series: ['X-1/tilt', 'L-1/battery-voltage'],
    })
    expect(weigh('logger-cells', { battery: cells })[0]?.picture).toEqual({ kind: 'network', logger: 'L-1' })
  })
})

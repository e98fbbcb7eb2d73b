import { describe, expect, test } from 'vitest'
import { findOddities } from '#domain/review/oddity.ts'
import { weighCase } from '#domain/review/rank-causes.ts'
import { reviewRules } from '#domain/review/review-rules.ts'
import { beside, dayMs, found, madeTraces, stepped, still } from './made-traces.ts'
import { fromEpochMs, hourMs } from './made-world.ts'

const { mark, tiltOf, world } = madeTraces()

describe('every rule', () => {
  test('says why, and says in words that there is too little, of ten readings, one or none', () => {
    for (const count of [10, 1, 0]) {
      let said = 0
      const trace = mark(still)
      const short = {
        ...trace,
        atEpochMs: trace.atEpochMs.slice(0, count),
        values: trace.values.slice(0, count),
      }
      for (const rule of reviewRules) {
        expect(rule.reason).toMatch(/^[A-Z].*\.$/)
        const evidence = rule.weigh(
          world.caseOf(short, { same: [beside(short, 5)], other: [beside(short, 5)] }),
        )
        said += evidence.length
        for (const one of evidence) {
          // Ten that go as those beside them are something, and little.
          if (count < 10) expect(one.stands).toBe('missing')
          expect(Math.abs(one.decibans)).toBeLessThanOrEqual(2)
          expect(one.sentence).toMatch(/^[A-Z].*\.$/)
        }
      }
      expect(said).toBeGreaterThan(0)
      const table = weighCase(world.caseOf(short), 'value')
      expect(table.treatAsReal).toBe(true)
      expect(table.sentence).toContain(count === 0 ? 'nothing can be concluded' : 'treat it as real')
    }
  })

  test('bears values that are no numbers, and ones that are all equal', () => {
    for (const value of [Number.NaN, 7.25]) {
      const trace = tiltOf(still)
      const odd = { ...trace, values: trace.values.map(() => value) }
      const reviewed = world.caseOf(odd, { same: [beside(tiltOf(still, 'N'), 3)], drivers: world.drivers })
      for (const cause of weighCase(reviewed, 'value').ranked)
        expect(Number.isFinite(cause.decibans)).toBe(true)
    }
  })

  test('with no neighbours names what would tell', () => {
    const { ranked, sentence } = weighCase(world.caseOf(mark(stepped(8))), 'value')
    const missing = ranked.flatMap(({ evidence }) => evidence).filter(({ stands }) => stands === 'missing')
    expect(missing.map(({ rule }) => rule)).toEqual(
      expect.arrayContaining(['same-quantity', 'other-quantity', 'by-hand', 'other-channels']),
    )
    expect(sentence).toMatch(/treat it as real\. \d things that would tell are missing\./)
  })
})

describe('what could not be looked at', () => {
  test('without the network document is told as missing, never as found to be in order', () => {
    const unknown = world.caseOf(mark(stepped(8)), { networkKnown: false })
    for (const id of ['logger-cells', 'delivery', 'other-channels'])
      expect(found(id, unknown)).toMatchObject([{ stands: 'missing' }])
    expect(found('other-channels', unknown)[0]?.sentence).toContain('not known here')
  })

  test('cells that were last read weeks before say nothing of the end, unless they were low already', () => {
    const cells = (volts: number) =>
      found(
        'logger-cells',
        world.caseOf(tiltOf(still), {
          logger: world.logger({ battery: { volts, leastVolts: 3, atEpochMs: fromEpochMs + 10 * dayMs } }),
        }),
      )
    expect(cells(3.6)).toMatchObject([{ stands: 'missing', decibans: 0 }])
    expect(cells(2.8)).toMatchObject([{ stands: 'for', cause: 'logger' }])
    expect(cells(2.8)[0]?.sentence).toContain('were last read on 2031-04-11')
  })

  test('of what is out of use the silence is nobody’s fault, and it is said that nothing is known', () => {
    const trace = tiltOf(still)
    const cut = { ...trace, atEpochMs: trace.atEpochMs.slice(0, 900), values: trace.values.slice(0, 900) }
    const logger = world.logger()
    const used = world.caseOf(cut, { logger })
    expect(findOddities(used).map(({ oddity }) => oddity)).toContain('silence')
    expect(found('own-channel', used)).not.toEqual([])
    const ended = { ...used, outOfUseSinceEpochMs: fromEpochMs + 900 * hourMs }
    expect(findOddities(ended).map(({ oddity }) => oddity)).toEqual(['value'])
    expect(findOddities(ended)[0]?.sentence).toContain('It is out of use since 2031-05-08')
    expect(found('own-channel', ended)).toEqual([])
    const damage = {
      kind: 'damage',
      atEpochMs: fromEpochMs + 900 * hourMs,
      text: 'cable cut',
      distanceMetres: 2,
    } as const
    const lost = { ...ended, notes: [damage] }
    expect(findOddities(lost).map(({ oddity }) => oddity)).toContain('silence')
    expect(found('own-channel', lost)).not.toEqual([])
    expect(found('own-channel', { ...lost, notes: [{ ...damage, distanceMetres: 40 }] })).toEqual([])
  })

  test('a neighbour that somebody doubts is named', () => {
    const reviewed = world.caseOf(mark(stepped(8)), {
      timeZone: 'Pacific/Auckland',
      foundBeside: [
        {
          series: 'N/settlement',
          verdict: 'doubtful',
          fromEpochMs: Date.UTC(2031, 3, 9, 13),
          author: 'A. Judge',
        },
      ],
    })
    // Auckland is twelve hours ahead in April: the day there is the next one.
    expect(found('found-beside', reviewed)[0]?.sentence).toBe(
      'N/settlement was found doubtful by A. Judge from 2031-04-10 on: what rests on it is in doubt as well.',
    )
  })
})

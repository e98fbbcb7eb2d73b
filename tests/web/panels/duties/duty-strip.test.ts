import { describe, expect, it } from 'vitest'
import type { DutyStanding } from '#contract/duties-document.ts'
import { coverageSentence, initialsOf } from '../../../../web/panels/duties/duty-sentences.ts'
import { dutyStrip, stripDays } from '../../../../web/panels/duties/duty-strip.ts'

const from = Date.parse('2027-10-29T22:00:00Z')
const hour = 3_600_000
const standing = (change: Partial<DutyStanding> = {}): DutyStanding => ({
  duty: 'Monitoring engineer',
  levels: 3,
  now: [],
  week: {
    fromEpochMs: from,
    untilEpochMs: from + 168 * hour,
    turns: [
      { order: 2, name: 'Second', fromEpochMs: from - hour, untilEpochMs: from + 200 * hour },
      { order: 1, name: 'Ada Marsh', fromEpochMs: from - hour, untilEpochMs: from + 42 * hour },
    ],
  },
  holes: [],
  steps: [],
  stepsWritten: true,
  ...change,
})
const hole = (start: number, end: number) => ({
  fromEpochMs: from + start * hour,
  untilEpochMs: from + end * hour,
  because: 'nobody' as const,
  sentence: 'Nobody is on.',
})

describe('the strip of a week', () => {
  it('has a row an order, cut to the week, with holes in that of order 1', () => {
    expect(dutyStrip(standing({ holes: [hole(42, 84), hole(160, 300), hole(400, 401)] }))).toEqual([
      {
        order: 1,
        turns: [{ startShare: 0, lengthShare: 0.25, name: 'Ada Marsh' }],
        holes: [
          { startShare: 0.25, lengthShare: 0.25, name: 'nobody' },
          { startShare: 160 / 168, lengthShare: expect.closeTo(8 / 168, 12), name: 'nobody' },
        ],
      },
      { order: 2, turns: [{ startShare: 0, lengthShare: 1, name: 'Second' }], holes: [] },
    ])
  })

  it('has a row of order 1 also where nobody has it', () => {
    const { week } = standing()
    expect(dutyStrip(standing({ week: { ...week, turns: [] } }))).toEqual([
      { order: 1, turns: [], holes: [] },
    ])
  })

  it('has the midnights of site time, also over the end of summer time', () => {
    // 31 October 2027 has 25 hours in London.
    expect(
      stripDays(standing().week, 'Europe/London').map(({ name, startShare }) => [name, startShare * 168]),
    ).toEqual(
      [
        ['Sat 30', 1],
        ['Sun 31', 25],
        ['Mon 1', 50],
        ['Tue 2', 74],
        ['Wed 3', 98],
        ['Thu 4', 122],
        ['Fri 5', 146],
      ].map(([name, hours]) => [name, expect.closeTo(Number(hours), 9)]),
    )
  })
})

describe('what is said of a duty', () => {
  it('counts the holes, and has initials for whoever is on', () => {
    expect(coverageSentence(standing(), from, 'UTC')).toContain('at every instant')
    expect(coverageSentence(standing({ holes: [hole(0, 1), hole(2, 3)] }), from, 'UTC')).toMatch(/^2 times/)
    expect(initialsOf('Tunnel control room')).toBe('TCR')
  })
})

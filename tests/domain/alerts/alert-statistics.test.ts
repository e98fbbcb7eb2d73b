import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { chattering, closeRuns, flood } from '#domain/alerts/alert-runs.ts'
import { alertStatistics, type CountedAlert, countedAlerts } from '#domain/alerts/alert-statistics.ts'

const minute = 60_000
const alert = (change: Partial<CountedAlert> = {}): CountedAlert => ({
  level: 'SP-01 settlement 1',
  instrument: 'SP-01',
  raisedAtEpochMs: Date.UTC(2027, 7, 10),
  finding: 'movement',
  acknowledgedAfterMs: 5 * minute,
  ...change,
})

describe('statistics of alerts', () => {
  it('counts by level, instrument and month of the site, with shares of those closed', () => {
    const { all, byLevel, byInstrument, byMonth } = alertStatistics(
      [
        alert(),
        alert({ finding: 'false', acknowledgedAfterMs: 20 * minute }),
        alert({
          finding: 'nuisance',
          level: 'PZ-01 pressure 1',
          instrument: 'PZ-01',
          acknowledgedAfterMs: 10 * minute,
        }),
        // Already September in London, still August by UTC.
        alert({ finding: null, raisedAtEpochMs: Date.UTC(2027, 7, 31, 23, 30), acknowledgedAfterMs: null }),
      ],
      'Europe/London',
    )
    expect(all).toMatchObject({ raised: 4, closed: 3, unacknowledged: 1, medianToAcknowledgeMs: 10 * minute })
    expect(all.falseShare).toMatchObject({ count: 1, share: 1 / 3 })
    // 1 of 3 by the formula of Wilson (1927), computed in python3: 0.0615 to 0.7923.
    expect(all.falseShare?.low).toBeCloseTo(0.0615, 4)
    expect(all.falseShare?.high).toBeCloseTo(0.7923, 4)
    expect(byLevel.map(({ of, raised }) => [of, raised])).toEqual([
      ['PZ-01 pressure 1', 1],
      ['SP-01 settlement 1', 3],
    ])
    expect(byInstrument.map(({ of, raised }) => [of, raised])).toEqual([
      ['PZ-01', 1],
      ['SP-01', 3],
    ])
    expect(byMonth.map(({ of, raised, falseShare }) => [of, raised, falseShare === null])).toEqual([
      ['2027-08', 3, false],
      ['2027-09', 1, true],
    ])
  })

  it('says nothing of what there is none of', () => {
    expect(alertStatistics([], 'UTC').all).toEqual({
      raised: 0,
      closed: 0,
      falseShare: null,
      nuisanceShare: null,
      medianToAcknowledgeMs: null,
      ninetiethToAcknowledgeMs: null,
      unacknowledged: 0,
    })
  })
})

describe('alerts that are counted', () => {
  const step = { by: 'A. Reed', atEpochMs: 900, note: 'seen' }
  const level = (series: string) => ({ kind: 'level', level: { id: `${series} 1`, series } }) as never
  const raised = {
    cause: level('SP-1/settlement'),
    raisedAtEpochMs: 100,
    openedAtEpochMs: 400,
    untoldBecause: null,
    acknowledged: step,
    verified: { ...step, finding: 'false' as const },
    closed: null,
  }
  const site = { points: [{ id: 'SP-1', instrument: 'SP' }], instruments: [{ id: 'ST-1' }] }

  it('have the instrument of their series, and a finding once they are closed', () => {
    const found = countedAlerts(
      [
        raised,
        { ...raised, closed: step, cause: level('ST-1/force') },
        { ...raised, cause: level('XX/force') },
      ],
      site,
    )
    expect(found).toEqual([
      {
        level: 'SP-1/settlement 1',
        instrument: 'SP',
        raisedAtEpochMs: 100,
        finding: null,
        acknowledgedAfterMs: 500,
      },
      expect.objectContaining({ instrument: 'ST-1', finding: 'false' }),
      expect.objectContaining({ instrument: null }),
    ])
  })

  it('are neither drills nor those of which nobody was told', () => {
    const drill = { kind: 'drill', duty: 'D', reason: 'monthly' } as const
    expect(
      countedAlerts(
        [
          { ...raised, cause: drill },
          { ...raised, untoldBecause: 'late' },
        ],
        site,
      ),
    ).toEqual([])
  })
})

describe('runs of alerts', () => {
  const every = (count: number, stepMs: number) => Array.from({ length: count }, (_, place) => place * stepMs)
  it.each([
    [10, minute * 0.9, 0],
    [11, minute * 0.9, 1],
    [11, minute, 0],
    [40, minute * 0.5, 1],
  ])('%i alerts, one every %d ms, make %i floods', (count, stepMs, floods) => {
    const found = closeRuns(every(count, stepMs), flood)
    expect(found).toHaveLength(floods)
    if (floods) expect(found[0]).toMatchObject({ count, untilEpochMs: (count - 1) * stepMs })
  })

  it('chattering is three of one level in an hour, each run told once', () => {
    const at = [0, 10, 20, 500, 600, 659].map((minutes) => minutes * minute)
    expect(closeRuns(at, chattering)).toEqual([{ fromEpochMs: 0, untilEpochMs: 20 * minute, count: 3 }])
    const levels = at.map((raisedAtEpochMs, place) => alert({ raisedAtEpochMs, level: `L${place % 2}` }))
    expect(alertStatistics(levels, 'UTC').chattering).toEqual([])
  })

  it('are the same whatever the order', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(200)), (minutes) => {
        const at = minutes.map((one) => one * minute)
        expect(closeRuns(at.toReversed(), chattering)).toEqual(closeRuns(at, chattering))
      }),
      { seed: 6 },
    )
  })
})

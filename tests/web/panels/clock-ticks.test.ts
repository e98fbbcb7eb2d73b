import { describe, expect, it } from 'vitest'
import type { Stage } from '#domain/site/tables.ts'
import { diaryWithin, monthTicks, shareOfSpan, stageStretches } from '../../../web/panels/clock-ticks.ts'

const span = { fromEpochMs: 0, untilEpochMs: 100 }
const stage = (id: string, startsAt: number, endsAt: number | null): Stage => ({
  id,
  name: id,
  startsAt,
  endsAt,
  formationLevelMetres: null,
})

describe('scale of the clock', () => {
  it('puts stages that overlap in time in rows of their own, and reuses rows that are free', () => {
    const stretches = stageStretches([stage('c', 60, 80), stage('a', 0, 50), stage('b', 40, null)], span)
    expect(stretches.map((one) => [one.id, one.from, one.until, one.row])).toEqual([
      ['a', 0, 0.5, 0],
      ['b', 0.4, 1, 1],
      ['c', 0.6, 0.8, 0],
    ])
  })

  it('leaves out stages beyond the span', () => {
    expect(stageStretches([stage('later', 100, 200), stage('before', -5, 0)], span)).toEqual([])
  })

  it('holds every share within the scale, even on an empty span', () => {
    expect(shareOfSpan(-5, span)).toBe(0)
    expect(shareOfSpan(500, span)).toBe(1)
    expect(shareOfSpan(5, { fromEpochMs: 7, untilEpochMs: 7 })).toBe(0)
  })

  it('names the months that begin in the span', () => {
    const year = { fromEpochMs: Date.UTC(2027, 0, 31), untilEpochMs: Date.UTC(2027, 3, 2) }
    expect(monthTicks(year).map((tick) => tick.name)).toEqual(['Feb', 'Mar', 'Apr'])
  })

  it('lists the diary of the span, latest first', () => {
    const entry = (at: number) =>
      ({
        at,
        untilAt: null,
        kind: 'note',
        text: String(at),
        eastingMetres: null,
        northingMetres: null,
        author: 'x',
      }) as const
    expect(diaryWithin([entry(3), entry(99), entry(101)], span).map((one) => one.at)).toEqual([99, 3])
  })
})

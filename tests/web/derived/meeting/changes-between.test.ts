import { describe, expect, it } from 'vitest'
import {
  changeSeries,
  changesBetween,
  revisedSince,
} from '../../../../web/derived/meeting/changes-between.ts'
import { presentEpochMs, series, smallSite, state } from '../../state/small-site.ts'

const then = presentEpochMs - 28 * 86_400_000
const sp = [series(1, 'SP-1/settlement'), series(2, 'SP-2/settlement'), series(3, 'SP-3/settlement')]

describe('changes between two cut-offs', () => {
  it('are told largest first with 95 % intervals, and not where either end is missing', () => {
    const before = new Map([
      [1, { value: 1, atEpochMs: then }],
      [2, { value: 5, atEpochMs: then }],
    ])
    const now = new Map([
      [1, state(1, { value: 2 })],
      [2, state(2, { value: 1 })],
      [3, state(3, { value: 9 })],
    ])
    const [settlement] = changesBetween(sp, before, now)
    expect(settlement?.changed.map(({ series: { id }, change }) => [id, change])).toEqual([
      ['SP-2/settlement', -4],
      ['SP-1/settlement', 1],
    ])
    // JCGM 100, G.2.1: 1.96 standard uncertainties hold 95 %; two independent readings of 0.1 mm each.
    expect(settlement?.changed[0]?.halfWidth).toBeCloseTo(1.96 * Math.sqrt(0.1 ** 2 + 0.1 ** 2), 12)
    expect(settlement?.untold.map(({ id }) => id)).toEqual(['SP-3/settlement'])
  })

  it('are not told of a value that is not current', () => {
    const before = new Map([[1, { value: 1, atEpochMs: then }]])
    const late = new Map([[1, state(1, { late: true })]])
    expect(changesBetween(sp.slice(0, 1), before, late)[0]).toMatchObject({ changed: [], untold: [sp[0]] })
  })

  it('are of the ground: weather and batteries are left away, retired points too', () => {
    const site = smallSite()
    const ids = (list: readonly { readonly id: string }[]) => list.map(({ id }) => id)
    expect(ids(changeSeries(site, presentEpochMs))).toContain('SP-1/settlement')
    expect(ids(changeSeries(site, presentEpochMs))).toContain('ST-1/force')
    const all = (more: object) => ({
      ...site,
      points: site.points.map((one) => ({ ...one, ...more })),
      instruments: site.instruments.map((one) => ({ ...one, ...more })),
    })
    expect(changeSeries(all({ kind: 'rain-gauge' }), presentEpochMs)).toEqual([])
    expect(changeSeries(all({ retiredAtEpochMs: 1 }), presentEpochMs)).toEqual([])
    // What a whole instrument makes ends with the last of its points, and a point with its instrument.
    const gauges = {
      ...site,
      points: site.points.map((one) => (one.instrument === 'ST-1' ? { ...one, retiredAtEpochMs: 1 } : one)),
    }
    expect(ids(changeSeries(gauges, presentEpochMs))).not.toContain('ST-1/force')
    const marks = {
      ...site,
      instruments: site.instruments.map((one) => (one.id === 'SP-1' ? { ...one, retiredAtEpochMs: 1 } : one)),
    }
    expect(ids(changeSeries(marks, presentEpochMs))).not.toContain('SP-1/settlement')
  })
})

describe('revised values', () => {
  const told = new Map([[1, { value: 1, atEpochMs: then }]])
  const revised = (value: number | null, atEpochMs: number | null) =>
    revisedSince(sp.slice(0, 1), told, new Map([[1, { value, atEpochMs }]]))

  it('are none where the same reading still gives the same value to its last decimal', () => {
    expect(revised(1.004, then)).toEqual([])
    expect(revisedSince(sp, new Map(), new Map())).toEqual([])
  })

  it('are told where it gives another, where a later reading came in, and where it is gone', () => {
    expect(revised(1.01, then)[0]?.now).toEqual({ value: 1.01, atEpochMs: then })
    expect(revised(1, then + 1000)[0]?.now).toEqual({ value: 1, atEpochMs: then + 1000 })
    expect(revised(null, then)[0]?.now).toBeNull()
    expect(revisedSince(sp.slice(0, 1), told, new Map())[0]?.now).toBeNull()
  })
})

import { describe, expect, it } from 'vitest'
import { gatherSymbols } from '../../../web/derived/plan-symbols.ts'
import { summarise } from '../../../web/state/standing-summary.ts'
import { registerRows } from '../../../web/views/register/register-rows.ts'
import { point, presentEpochMs, smallSite, state, stateMap } from '../state/small-site.ts'

const at = presentEpochMs
const gather = (changed: Parameters<typeof stateMap>[0] = [], site = smallSite()) =>
  gatherSymbols({ ...site, states: stateMap(changed), atEpochMs: at })
const symbolOf = (symbols: ReturnType<typeof gather>, id: string) =>
  symbols.find((symbol) => symbol.id === id)

describe('symbols on the plan', () => {
  it('gathers the tips of one hole, however far it leans', () => {
    const site = smallSite()
    const leaning = site.points.map((one) =>
      one.id === 'PZ-1B' ? { ...one, longitude: one.longitude + 1e-4 } : one,
    )
    const symbol = symbolOf(gather([], { ...site, points: leaning }), 'PZ-1')
    expect(symbol?.points).toHaveLength(2)
  })

  it('keeps apart points of an instrument that lie at different places', () => {
    const site = smallSite()
    const apart = site.points.map((one) =>
      one.id === 'ST-1b' ? { ...one, location: 'elsewhere', longitude: one.longitude + 1e-3 } : one,
    )
    const symbols = gather([], { ...site, points: apart })
    expect(symbolOf(symbols, 'ST-1a')?.points).toEqual(['ST-1a'])
    expect(symbolOf(symbols, 'ST-1b')?.points).toEqual(['ST-1b'])
  })

  it('shows silence of one member above the others within levels', () => {
    const symbol = symbolOf(gather([state(2, { late: true, level: null, atEpochMs: at - 9e7 })]), 'PZ-1')
    expect(symbol).toMatchObject({ standing: 'late', partLate: true, ageMs: 9e7 })
    expect(symbol?.points[0]).toBe('PZ-1B')
  })

  it('shows a level of one member above silence of another, and the silence too', () => {
    const symbol = symbolOf(gather([state(1, { level: 1 }), state(2, { late: true, level: null })]), 'PZ-1')
    expect(symbol).toMatchObject({ standing: 'level-1', partLate: true })
  })

  it('counts no share of a silent member', () => {
    const silent = state(2, { late: true, level: null, shareOfFirstLevel: 0.99 })
    expect(symbolOf(gather([silent]), 'PZ-1')?.share).toBe(0.5)
  })

  it('judges a strut by the force made from all its gauges', () => {
    const symbol = symbolOf(
      gather([state(4, { level: null }), state(5, { level: null }), state(6, { level: 1 })]),
      'ST-1',
    )
    expect(symbol).toMatchObject({ standing: 'level-1' })
    expect(symbol?.points.toSorted()).toEqual(['ST-1a', 'ST-1b'])
  })

  it('says what is out of use below all else, and puts the worst last so that it is drawn on top', () => {
    const site = smallSite()
    const retired = point('SP-1', 'SP-1', 'settlement-point', 3, 3, { retiredAtEpochMs: at })
    const symbols = gather([state(1, { level: 2 })], {
      ...site,
      points: site.points.map((one) => (one.id === 'SP-1' ? retired : one)),
    })
    expect(symbols.map((symbol) => symbol.id)).toEqual(['SP-1', 'ST-1', 'PZ-1'])
    expect(symbols[0]).toMatchObject({
      standing: 'out-of-use',
      share: null,
      ageMs: null,
      outOfUse: 1,
      outOfUseSinceEpochMs: at,
    })
  })

  it('counts members out of use, without a level and silent, and does not judge what is out of use', () => {
    const site = smallSite()
    const without = site.points.map((one) => (one.id === 'PZ-1B' ? { ...one, retiredAtEpochMs: at } : one))
    const symbols = gather([state(2, { level: 2 })], { ...site, points: without })
    expect(symbolOf(symbols, 'PZ-1')).toMatchObject({ standing: 'within', outOfUse: 1, points: ['PZ-1A'] })
    expect(symbolOf(gather([state(2, { level: null })]), 'PZ-1')).toMatchObject({
      standing: 'within',
      noLevel: 1,
      channels: 2,
    })
    expect(symbolOf(gather([state(3, { late: true, level: 1 })]), 'SP-1')).toMatchObject({
      standing: 'level-1',
      partLate: true,
      allLate: true,
    })
  })

  it('does not judge what ended within a point in use: it is out of use, as in the register and the key', () => {
    const ended = (...numbers: readonly number[]) => {
      const site = smallSite()
      const series = site.series.map((one) =>
        numbers.includes(one.series) ? { ...one, endedAtEpochMs: at } : one,
      )
      return { ...site, series }
    }
    const silent = (number: number) => state(number, { late: true, level: null, atEpochMs: at - 9e8 })
    for (const [numbers, id, expected] of [
      [[3], 'SP-1', { standing: 'out-of-use', partLate: false, outOfUse: 1, outOfUseSinceEpochMs: at }],
      [[2], 'PZ-1', { standing: 'within', partLate: false, channels: 1, outOfUse: 1, points: ['PZ-1A'] }],
      [[6], 'ST-1', { standing: 'within', partLate: false, channels: 2, outOfUse: 1 }],
    ] as const) {
      const site = ended(...numbers)
      const changed = numbers.map(silent)
      expect(symbolOf(gather(changed, site), id)).toMatchObject(expected)
      const rows = registerRows(site, stateMap(changed), at)
      const summary = summarise(site, { atEpochMs: at, states: stateMap(changed) })
      expect(rows.filter(({ standing }) => standing === 'out-of-use')).toHaveLength(1)
      expect(summary).toMatchObject({ outOfUse: 1, late: 0 })
      const before = gatherSymbols({ ...site, states: stateMap(changed), atEpochMs: at - 1 })
      expect(symbolOf(before, id)).toMatchObject({ partLate: numbers[0] !== 3, outOfUse: 0 })
    }
  })

  it('takes what is made from a whole instrument for ended with the last of its points', () => {
    const site = smallSite()
    const retired = (...ids: readonly string[]) => ({
      ...site,
      points: site.points.map((one) => (ids.includes(one.id) ? { ...one, retiredAtEpochMs: at } : one)),
    })
    expect(symbolOf(gather([], retired('ST-1a')), 'ST-1')).toMatchObject({ channels: 2, outOfUse: 1 })
    const all = retired('ST-1a', 'ST-1b')
    expect(symbolOf(gather([], all), 'ST-1')?.standing).toBe('out-of-use')
    expect(summarise(all, { atEpochMs: at, states: stateMap() })).toMatchObject({ series: 3, outOfUse: 3 })
  })

  it('is unknown, not within, while nothing has been judged', () => {
    const symbols = gatherSymbols({ ...smallSite(), states: null, atEpochMs: at })
    expect(new Set(symbols.map((symbol) => symbol.standing))).toEqual(new Set(['unknown']))
  })
})

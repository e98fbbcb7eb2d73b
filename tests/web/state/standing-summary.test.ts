import { describe, expect, it } from 'vitest'
import { summarise } from '../../../web/state/standing-summary.ts'
import { point, presentEpochMs, smallSite, state, stateMap } from './small-site.ts'

const at = presentEpochMs
const judged = (changed: Parameters<typeof stateMap>[0]) => ({ atEpochMs: at, states: stateMap(changed) })

describe('summary of the site', () => {
  it('counts a late series that stands at a level as both', () => {
    const summary = summarise(
      smallSite(),
      judged([
        state(1, { late: true, level: null, shareOfFirstLevel: null, atEpochMs: at - 9e6 }),
        state(3, { late: true, level: 2, atEpochMs: at - 8e6 }),
        state(4, { level: null }),
      ]),
    )
    expect(summary).toMatchObject({
      series: 6,
      late: 2,
      lateSinceEpochMs: at - 9e6,
      within: 3,
      noLevel: 1,
      reached: [0, 1],
    })
  })

  it('counts a series without any state as late', () => {
    const states = new Map(stateMap())
    states.delete(2)
    expect(summarise(smallSite(), { atEpochMs: at, states }).late).toBe(1)
  })

  it('leaves out what is out of use', () => {
    const site = smallSite()
    const points = site.points.map((one) =>
      one.id === 'SP-1' ? point('SP-1', 'SP-1', 'settlement-point', 3, 3, { retiredAtEpochMs: at }) : one,
    )
    expect(summarise({ ...site, points }, judged([])).series).toBe(5)
  })

  it('leaves out what is made from a place out of use: it has ended, it is not silent', () => {
    const site = smallSite()
    const series = site.series.map((one, index) => (index === 0 ? { ...one, endedAtEpochMs: at } : one))
    expect(summarise({ ...site, series }, judged([])).series).toBe(5)
    expect(summarise({ ...site, series }, { ...judged([]), atEpochMs: at - 1 }).series).toBe(6)
  })

  it('counts levels in force that no standing tells of', () => {
    const site = smallSite()
    const id = site.series[0]?.id
    const level = (change: object) => ({ series: id, validFrom: 0, validUntil: null, stage: null, ...change })
    const of = (...levels: object[]) =>
      summarise({ ...site, triggerLevels: levels as unknown as typeof site.triggerLevels }, judged([]))
        .otherLevels
    expect(of(level({}), level({ watches: 'rate' }), level({ watches: 'silence' }))).toBe(2)
    expect(
      of(level({ watches: 'rate', validUntil: at }), level({ watches: 'rate', series: 'none/tilt' })),
    ).toBe(0)
  })
})

import { describe, expect, it } from 'vitest'
import type { PlacedPoint, Series } from '#contract/site-document.ts'
import { drawdownsOfTip, newestDrawdown, thinned } from '../../../web/derived/ground/measured-drawdowns.ts'
import { wellMarks } from '../../../web/derived/well-marks.ts'

const dayMs = 86_400_000
const start = 100 * dayMs
const tip = (measure: string, uncertaintyPeriods: Series['uncertaintyPeriods'] = []) => ({
  point: { id: 'P', eastingMetres: 1, northingMetres: 2, levelMetres: -7 } as PlacedPoint,
  series: { measure, intervalMinutes: 60, uncertaintyPeriods } as unknown as Series,
})
const question = { startEpochMs: start, daysBefore: 10, unitWeightKnPerM3: 10, setAside: () => null }
const days = (...values: readonly (readonly [number, number | null])[]) => ({
  atEpochMs: values.map(([day]) => start + day * dayMs),
  values: values.map(([, value]) => value),
  late: false,
})

describe('drawdown of a tip', () => {
  it('is the mean level before pumping less the level since, in metres of water', () => {
    const readings = days([-20, 500], [-2, 80], [-1, 84], [0.5, 70], [1.5, 62], [2.5, null], [3.5, 52])
    const found = drawdownsOfTip(tip('pore-pressure'), readings, question)
    expect(found.map(({ time, drawdownMetres }) => [time, drawdownMetres])).toEqual([
      [1.5, expect.closeTo(2, 9)],
      [3.5, expect.closeTo(3, 9)],
    ])
    expect(found[0]?.standardUncertaintyMetres).toBeNull()
  })
  it('of a standpipe is of its levels as they are', () => {
    const found = drawdownsOfTip(tip('water-level'), days([-1, 1.2], [2, -0.3]), question)
    expect(found[0]?.drawdownMetres).toBeCloseTo(1.5, 12)
  })
  it('is not known without a level before pumping, and says so', () => {
    const [found] = drawdownsOfTip(tip('pore-pressure'), days([-11, 80], [2, 60]), question)
    expect(found?.drawdownMetres).toBeNull()
    expect(found?.setAside).toContain('10 days before pumping')
  })
  it('has the uncertainty of a change, in metres', () => {
    const periods = [{ fromEpochMs: 0, commonSinceEpochMs: 0, standardUncertainty: 0.5, independent: 0.1 }]
    const found = drawdownsOfTip(tip('pore-pressure', periods), days([-1, 80], [2, 60]), question)
    expect(found[0]?.standardUncertaintyMetres).toBeCloseTo((0.1 * Math.SQRT2) / 10, 12)
  })
  it('of the newest reading is late where the readings are', () => {
    const found = drawdownsOfTip(tip('pore-pressure'), days([-1, 80], [2, 60]), question)
    expect(newestDrawdown(found, true)?.late).toBe(true)
    expect(newestDrawdown([], true)).toBeNull()
  })
})

it('thinning keeps the newest', () => {
  expect(thinned([1, 2, 3, 4, 5, 6, 7], 3)).toEqual([1, 4, 7])
  expect(thinned([1, 2], 3)).toEqual([1, 2])
})

it('a well has the rate in force at the instant', () => {
  const well = { id: 'W', screenTopLevelMetres: null, screenBaseLevelMetres: null } as never
  const rates = [
    { well: 'W', fromAt: 10, rateLitresPerSecond: 22, author: '' },
    { well: 'W', fromAt: 20, rateLitresPerSecond: 0, author: '' },
  ]
  const textAt = (at: number) => wellMarks({ wells: [well], pumpingRates: rates }, at)[0]?.text
  expect([5, 15, 25].map(textAt)).toEqual(['W not pumped', 'W 22 l/s', 'W not pumped'])
})

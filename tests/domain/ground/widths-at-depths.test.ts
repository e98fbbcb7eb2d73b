import { describe, expect, test } from 'vitest'
import { stationOf } from '#domain/geometry/alignment.ts'
import { gaussianTrough, settlementAt, troughBelowGround } from '#domain/ground/trough.ts'
import type { SettledPlace } from '#domain/ground/troughs/trough-across.ts'
import { widthsAtDepths } from '#domain/ground/troughs/widths-at-depths.ts'

const drive = { diameterMetres: 6, axisDepthMetres: 20, volumeLoss: 0.012, widthParameter: 0.5 }
const line = [
  [0, 0],
  [0, 100],
] as const
const onLine = (point: readonly [number, number]) => stationOf(line, point)
const offsets = [-30, -20, -12, -6, 0, 6, 12, 20, 30]
const section = { chainageMetres: 50, withinMetres: 5, drive }

function place(id: string, offset: number, depthMetres: number, northingMetres = 50): SettledPlace {
  const trough = depthMetres === 0 ? gaussianTrough(drive) : troughBelowGround(drive, depthMetres)
  return {
    id,
    eastingMetres: offset,
    northingMetres,
    depthMetres,
    settlementMm: trough && settlementAt(trough, offset) * (1 + 0.001 * Math.sin(7 * offset)),
    standardUncertaintyMm: 0.2,
    late: false,
  }
}
const surface = offsets.map((offset) => place(`S${offset}`, offset, 0))
const clay = (depthMetres: number) => troughBelowGround(drive, depthMetres)?.widthMetres ?? Number.NaN

describe('the width of a trough below ground', () => {
  test.each([0, 2, 4])(
    'is that of the planted clay from one hole %d m beside the middle, if the volume is kept',
    (offset) => {
      const hole = [place('HEAD', offset, 0, 70), place('A', offset, 5, 70), place('B', offset, 10, 70)]
      const found = widthsAtDepths([...surface, ...hole], onLine, section)
      if (!found.ok) throw new Error(found.issues[0]?.message)
      expect(found.value.widths.map(({ basis }) => basis)).toEqual(['fitted', 'volume-kept', 'volume-kept'])
      for (const { depthMetres, widthMetres } of found.value.widths) {
        const expected = clay(depthMetres)
        expect(Math.abs(widthMetres.value / expected - 1)).toBeLessThan(0.01)
        if (depthMetres > 0)
          expect(Math.abs(widthMetres.value - expected)).toBeLessThan(widthMetres.standardError)
      }
    },
  )
  test('is fitted where points stand across the line at that depth', () => {
    const across = offsets.map((offset) => place(`D${offset}`, offset, 10))
    const found = widthsAtDepths([...surface, ...across], onLine, section)
    if (!found.ok) throw new Error(found.issues[0]?.message)
    expect(found.value.widths[1]?.basis).toBe('fitted')
    expect(found.value.widths[1]?.widthMetres.value).toBeCloseTo(clay(10), 1)
  })
  test('is refused with what is lacking', () => {
    const reasons = (places: readonly SettledPlace[]) => {
      const found = widthsAtDepths(places, onLine, section)
      return found.ok ? '' : found.issues.map(({ message }) => message).join(' ')
    }
    expect(reasons(surface)).toContain('anchors of extensometers')
    expect(reasons([...surface, place('A', 0, 5, 70)])).toContain('No point above it is levelled')
    expect(reasons([...surface, place('HEAD', 9, 0, 70), place('A', 9, 5, 70)])).toContain('on its flank')
    expect(reasons([...surface, place('S', 0, 0, 70), { ...place('A', 0, 5, 70), late: true }])).toContain(
      'late',
    )
    expect(reasons([place('A', 0, 5), place('S', 0, 0)])).toContain('offsets at least')
  })
})

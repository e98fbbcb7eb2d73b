import { describe, expect, it } from 'vitest'
import { palettes } from '../../../web/ui/palettes.ts'
import type { Standing } from '../../../web/ui/state-scale.ts'
import { arcPath, symbolMarkup, symbolSvg } from '../../../web/ui/symbol-markup.ts'
import { symbols } from '../../../web/ui/symbols.ts'

const palette = palettes.paper
const drawn = (standing: Standing, partLate = false) =>
  symbolMarkup(symbols.piezometer, { standing, partLate, levels: 2 }, palette)
const withoutColours = (markup: string) => markup.replace(/#[0-9a-f]{6}/g, '')

describe('symbol with its state', () => {
  it('differs between any two states without its colours', () => {
    const states: [Standing, boolean][] = [
      ['unknown', false],
      ['late', false],
      ['out-of-use', false],
      ['no-level', false],
      ['within', false],
      ['within', true],
      ['level-1', false],
      ['level-1', true],
      ['level-2', false],
    ]
    const markups = states.map(([standing, partLate]) => withoutColours(drawn(standing, partLate)))
    expect(new Set(markups).size).toBe(states.length)
  })

  it('is never filled like within levels when it has no current data', () => {
    expect(drawn('late')).not.toContain(palette.withinLevels)
    expect(drawn('unknown')).not.toContain(palette.withinLevels)
  })

  it('bears the numeral of its level', () => {
    expect(drawn('level-2')).toMatch(/>2<\/text>/)
    expect(drawn('within')).not.toContain('<text')
  })

  it('hatches only the lower part where some of it is silent', () => {
    const heights = [...drawn('within', true).matchAll(/[ML][\d.]+ ([\d.]+)/g)]
    const hatched = /<path d="((?:M[\d.]+ [\d.]+L[\d.]+ [\d.]+)+)"/.exec(drawn('within', true))?.[1] ?? ''
    const ys = [...hatched.matchAll(/[ML][\d.]+ ([\d.]+)/g)].map((match) => Number(match[1]))
    expect(heights.length).toBeGreaterThan(0)
    expect(ys.length).toBeGreaterThan(2)
    for (const y of ys) expect(y).toBeGreaterThanOrEqual(24 + 3 - 0.11)
  })

  it('draws no arc for what has no current data', () => {
    const arcs = (standing: Standing) =>
      symbolSvg(symbols.piezometer, { standing, share: 0.4, partLate: false, levels: 2 }, palette, 32).split(
        'A20 20',
      ).length - 1
    expect(arcs('within')).toBe(2)
    expect(arcs('late')).toBe(0)
  })
})

describe('arc', () => {
  it.each([
    [0.25, 44, 24, 0],
    [0.5, 24, 44, 0],
    [0.75, 4, 24, 1],
  ])('of %d ends where it should', (share, x, y, large) => {
    const match = /A20 20 0 (\d) 1 ([\d.]+) ([\d.]+)/.exec(arcPath(share))
    expect(Number(match?.[2])).toBeCloseTo(x, 1)
    expect(Number(match?.[3])).toBeCloseTo(y, 1)
    expect(Number(match?.[1])).toBe(large)
  })

  it('of more than the level is a full ring, of less than nothing none', () => {
    expect(arcPath(7)).toBe(arcPath(1))
    expect(arcPath(-1)).toBe(arcPath(0))
  })
})

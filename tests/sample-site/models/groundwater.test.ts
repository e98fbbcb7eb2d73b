import { describe, expect, it } from 'vitest'
import {
  aquifer,
  clayShare,
  insideDrawdownMetres,
  outsideDrawdownMetres,
  wellFunction,
} from '../../../sample-site/models/groundwater.ts'
import { dayMs, programme } from '../../../sample-site/models/programme.ts'

describe('wellFunction', () => {
  // Published: exponential integral E1, Abramowitz and Stegun 1964, table 5.1; the same values stand in the
  // table of W(u) of Wenzel 1942 (USGS Water-Supply Paper 887), cited from memory.
  it.each([
    [0.01, 4.0379],
    [0.1, 1.8229],
    [0.5, 0.5598],
    [1, 0.2194],
    [2, 0.0489],
    [5, 0.001148],
  ])('W(%d) = %d', (u, published) => {
    expect(wellFunction(u)).toBeCloseTo(published, published < 0.01 ? 6 : 4)
  })

  it('joins its two formulae at 1', () => {
    expect(wellFunction(1 - 1e-9)).toBeCloseTo(wellFunction(1 + 1e-9), 7)
  })
})

describe('outsideDrawdownMetres', () => {
  const later = programme.pumpingFrom + 60 * dayMs
  const abreast = (metres: number) =>
    outsideDrawdownMetres(aquifer.wellEastingMetres + metres, aquifer.wellNorthingMetres, later)

  it('settles near 1.9 m at 30 m and 0.95 m at 60 m abreast of the wells', () => {
    expect(abreast(30)).toBeCloseTo(1.9, 1)
    expect(abreast(60)).toBeCloseTo(0.95, 1)
  })

  it('is nothing on the dock line and before pumping', () => {
    expect(outsideDrawdownMetres(500_000, aquifer.dockNorthingMetres, later)).toBeCloseTo(0, 9)
    expect(outsideDrawdownMetres(500_000, 309_990, programme.pumpingFrom)).toBe(0)
  })
})

describe('insideDrawdownMetres', () => {
  it('nears 3.3 m, 63 % of it in 12 days', () => {
    expect(insideDrawdownMetres(programme.pumpingFrom + 12 * dayMs)).toBeCloseTo(3.3 * 0.632, 2)
    expect(insideDrawdownMetres(programme.pumpingFrom + 200 * dayMs)).toBeCloseTo(3.3, 5)
  })
})

describe('clayShare', () => {
  const layer = { thicknessMetres: 7, consolidationM2PerYear: 8 }
  it('begins at nothing and ends on a straight line', () => {
    for (const depth of [0.2, 0.5, 0.8]) {
      expect(clayShare(depth, 3, layer)).toBeLessThan(0.12 + depth / 2)
      expect(clayShare(depth, 1e5, layer)).toBeCloseTo(depth, 9)
    }
    expect(clayShare(0.5, 0, layer)).toBe(0)
  })
  it('is all of it at the base', () => {
    expect(clayShare(1, 10, layer)).toBeCloseTo(1, 9)
  })
})

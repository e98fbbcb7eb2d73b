import { expect, test } from 'vitest'
import { placesOf } from '#domain/review/case/places-of.ts'
import { measuresOf, outlineOfPatch, seriesInPatch } from '../../../../web/derived/review/series-in-patch.ts'
import { seriesOfSymbol } from '../../../../web/derived/review/series-of-symbol.ts'
import { reviewSite } from './review-site.ts'

const site = reviewSite()
const middle = placesOf(site).get('P-1') ?? { eastingMetres: 0, northingMetres: 0 }
const ids = (patch: Parameters<typeof seriesInPatch>[1], at = 0) =>
  seriesInPatch(site, patch, middle, at).map(({ id }) => id)

test('around a point and within an area alike', () => {
  const around = ids({ kind: 'around', radiusMetres: 25 })
  const corner = (eastingMetres: number, northingMetres: number) => ({
    eastingMetres: middle.eastingMetres + eastingMetres,
    northingMetres: middle.northingMetres + northingMetres,
  })
  const area = ids({
    kind: 'area',
    corners: [corner(-10, -10), corner(25, -10), corner(25, 10), corner(-10, 10)],
  })
  expect(around).toContain('P-3/pore-pressure')
  expect(around).not.toContain('P-4/pore-pressure')
  expect(area).toEqual(around)
  expect(ids({ kind: 'around', radiusMetres: 500 })).toHaveLength(site.series.length)
})

test('around nothing there is nothing, and an outline has no corners', () => {
  expect(seriesInPatch(site, { kind: 'around', radiusMetres: 30 }, null, 0)).toEqual([])
  expect(outlineOfPatch({ kind: 'around', radiusMetres: 30 }, null)).toEqual([])
  expect(outlineOfPatch({ kind: 'around', radiusMetres: 30 }, middle)).toHaveLength(48)
})

test('what is out of use is left out, and quantities are counted', () => {
  const [first] = site.points
  const retired = {
    ...site,
    points: site.points.map((one) => (one === first ? { ...one, retiredAtEpochMs: 5 } : one)),
  }
  const left = seriesInPatch(retired, { kind: 'around', radiusMetres: 500 }, middle, 6)
  expect(left.some(({ point }) => point === first?.id)).toBe(false)
  expect(measuresOf(left)[0]).toEqual({ measure: 'pore-pressure', count: 4 })
})

test('so is what went out of use with its instrument', () => {
  const { instrument } = site.points[0] ?? { instrument: '' }
  const retired = {
    ...site,
    instruments: site.instruments.map((one) =>
      one.id === instrument ? { ...one, retiredAtEpochMs: 5 } : one,
    ),
  }
  const of = (at: number) =>
    seriesInPatch(retired, { kind: 'around', radiusMetres: 500 }, middle, at).map(({ point }) => point)
  expect(of(4)).toContain(site.points[0]?.id)
  expect(of(5)).not.toContain(site.points[0]?.id)
})

test('a tapped symbol gives the quantity reviewed, and one that is compared already first', () => {
  const lookup = {
    pointById: new Map(site.points.map((one) => [one.id, one])),
    seriesByNumber: new Map(site.series.map((one) => [one.series, one])),
    seriesOfPoint: new Map(
      site.points.map(({ id }) => [id, site.series.filter(({ point }) => point === id)] as const),
    ),
  }
  const symbol = { instrument: 'P-1', points: ['P-1'] }
  expect(seriesOfSymbol(symbol, lookup, 'temperature', [])).toBe('P-1/temperature')
  expect(seriesOfSymbol(symbol, lookup, 'tilt', [])).toBe('P-1/pore-pressure')
  expect(seriesOfSymbol(symbol, lookup, 'temperature', ['P-1/pore-pressure'])).toBe('P-1/pore-pressure')
  expect(seriesOfSymbol({ instrument: 'X', points: ['X'] }, lookup, null, [])).toBeNull()
})

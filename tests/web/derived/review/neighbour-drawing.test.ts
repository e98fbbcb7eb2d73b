import type { Layer } from '@deck.gl/core'
import { expect, test } from 'vitest'
import { type Agreement, agreementKinds } from '#domain/review/agreement.ts'
import { placesOf } from '#domain/review/case/places-of.ts'
import {
  neighbourDrawing,
  residualRadiusPixels,
  roomyPlates,
} from '../../../../web/derived/review/neighbour-drawing.ts'
import { neighbourRows } from '../../../../web/derived/review/neighbour-rows.ts'
import { neighbourSigns } from '../../../../web/derived/review/neighbour-words.ts'
import { lonelySentence, type NeighboursFound } from '../../../../web/derived/review/neighbours-found.ts'
import { palettes } from '../../../../web/ui/palettes.ts'
import {
  neighbourGroundLayers,
  neighbourPlateLayers,
} from '../../../../web/views/plan-map/layers/neighbour-layers.ts'
import { reviewSite } from './review-site.ts'

const site = reviewSite()
const places = placesOf(site)
const toLngLat = ([east, north]: readonly [number, number]) => [east / 1e5, north / 1e5] as never
const seriesOf = (id: string) => {
  const one = site.series.find((series) => series.id === id)
  if (!one) throw new Error(id)
  return one
}
const agreement = (id: string, kind: Agreement['kind'], size: number | null): Agreement =>
  ({
    neighbour: { ...seriesOf(id), series: id, distanceMetres: 4, aboveMetres: 0, sameStratum: true },
    kind,
    change: size === null ? null : { size, low: size - 0.4, high: size + 0.4 },
    difference: size === null ? null : { size: -size, low: -size - 0.4, high: -size + 0.4 },
    correlation: { correlation: 0.6, interval: [0.2, 0.8], pairs: 50, independentPairs: 20 },
    lagHours: { lag: 24, low: 0, high: 72, open: false, alike: 0 },
    sentence: `${id} ${kind}.`,
  }) as unknown as Agreement
const found: NeighboursFound = {
  series: 'P-1/pore-pressure',
  point: 'P-1',
  fromEpochMs: 0,
  asOfEpochMs: 1,
  agreements: [
    agreement('P-3/pore-pressure', 'moves-with', 2.13),
    agreement('P-5/pore-pressure', 'moves-otherwise', -3.2),
    agreement('M-1/settlement', 'still', 0.1),
  ],
  parted: [
    {
      series: seriesOf('P-2/pore-pressure'),
      distanceMetres: 1,
      aboveMetres: 0,
      sameStratum: false,
      factor: 1,
    },
  ],
  unread: [
    { series: seriesOf('W-1/water-level'), distanceMetres: 1, aboveMetres: 0, sameStratum: true, factor: 1 },
  ],
  outOfUse: new Map(),
  remarks: [],
}
const residuals = {
  ok: true as const,
  what: 'Level',
  residuals: {
    unit: 'm',
    points: [
      { ids: ['P-1'], observed: 5, estimate: 4, residual: 1, standardError: 0.4, standardised: 2.5 },
      { ids: ['P-3'], observed: 3, estimate: 3.2, residual: -0.2, standardError: 0.4, standardised: -0.5 },
    ],
    pointsLeftOut: [],
    sentences: [],
  },
}
const drawing = neighbourDrawing(found, residuals, places, toLngLat)

test('every way to agree has a shape and a name of its own, so that colour tells nothing alone', () => {
  const signs = Object.values(neighbourSigns)
  expect(new Set(signs.map(({ sign }) => sign)).size).toBe(signs.length)
  expect(new Set(signs.map(({ name }) => name)).size).toBe(signs.length)
  for (const kind of agreementKinds) expect(neighbourSigns[kind]).toBeDefined()
})

test('plates bear shape, sign and figure, those of one place beside each other; silent and walled-off ones their shape alone', () => {
  expect(drawing.plates.map(({ text }) => text)).toEqual(['● +2.1', '◆ −3.2', '■ +0.1  ○  ×'])
  expect(drawing.plates.map(({ kind }) => kind)).toEqual(['moves-with', 'moves-otherwise', 'still'])
})

test('a line to each is whole, dashed, dotted or broken off by how it agrees, and begins at the point', () => {
  const pieces = (kind: string) => drawing.lines.filter((line) => line.kind === kind)
  expect(pieces('moves-with')).toHaveLength(1)
  expect(pieces('moves-with')[0]?.path[0]).toEqual(drawing.residuals[0]?.at)
  expect(pieces('moves-otherwise').length).toBeGreaterThan(5)
  expect(pieces('still').length).toBeGreaterThan(pieces('moves-otherwise').length)
})

test('rings grow with the standard errors, either way alike, and only large ones are written', () => {
  const radii = [0, 0.5, 1, 2, 4, 5, 9].map((one) => residualRadiusPixels(one, 30))
  expect(radii).toEqual(radii.toSorted((one, other) => one - other))
  expect(residualRadiusPixels(9, 30)).toBe(residualRadiusPixels(5, 30))
  expect(residualRadiusPixels(-2, 30)).toBe(residualRadiusPixels(2, 30))
  expect(drawing.residuals.map(({ text }) => text)).toEqual(['+2.5', ''])
})

test('layers: positive residuals are filled and negative ones open, lines and rings lie beneath names', () => {
  const props = {
    drawing,
    palette: palettes.paper,
    sizePixels: 30,
    scale: 1,
    metresPerPixel: 0.1,
    beforeId: 'names',
  }
  const ground = neighbourGroundLayers(props).map(({ id, props: given }) => {
    const { filled, beforeId, data } = given as unknown as {
      filled: boolean
      beforeId: string
      data: readonly unknown[]
    }
    return { id, filled, beforeId, count: data.length }
  })
  expect(ground[0]).toMatchObject({ id: 'neighbour-residuals-less', filled: false, count: 1 })
  expect(ground[1]).toMatchObject({ id: 'neighbour-residuals-more', filled: true, count: 1 })
  expect(ground.map(({ beforeId }) => beforeId)).toEqual(ground.map(() => 'names'))
  const plates = neighbourPlateLayers(props).find(({ id }) => id === 'neighbour-plates')
  const { getText, getColor } = (plates as Layer).props as unknown as {
    getText: (plate: unknown) => string
    getColor: (plate: unknown) => unknown
  }
  expect(getText(drawing.plates[0])).toBe('● +2.1')
  expect(getColor({ kind: 'moves-otherwise' })).not.toEqual(getColor({ kind: 'moves-with' }))
})

test('where figures would lie over another plate the shapes alone are left', () => {
  expect(roomyPlates(drawing.plates, 1000).map(({ text }) => text)).toEqual(
    drawing.plates.map(({ sign }) => sign),
  )
  expect(roomyPlates(drawing.plates, 0.001).map(({ text }) => text)).toEqual(
    drawing.plates.map(({ text }) => text),
  )
})

test('the table has every neighbour of the map with distance, layer, change, correlation, lag and residual', () => {
  const rows = neighbourRows(found, residuals, new Map(site.points.map((one) => [one.id, one])))
  expect(rows.map(({ point }) => point)).toEqual(['P-3', 'P-5', 'M-1', 'W-1', 'P-2'])
  expect(rows[0]).toMatchObject({
    stands: 'moves with it',
    distance: '4.0 m',
    layer: 'sand',
    change: '+2.13 (+1.73 to +2.53) kPa',
    difference: '−2.13 (−2.53 to −1.73) kPa',
    correlation: '+0.60 (+0.20 to +0.80)',
    lag: '+1.0 d (0 to +3.0)',
    residual: '−0.20',
    standardised: '−0.50',
  })
  expect(rows[4]?.sentence).toContain('behind a wall')
  expect(rows[3]?.sentence).toContain('has no reading')
})

test('what was taken out of use is not told as silent, in the table nor on the plan', () => {
  const retired = { ...found, outOfUse: new Map([['W-1/water-level', '2027-05-04']]) }
  const [row] = neighbourRows(retired, residuals, new Map()).filter(({ point }) => point === 'W-1')
  expect(row?.stands).toBe('out of use')
  expect(row?.sentence).toContain('out of use since 2027-05-04')
  const { plates } = neighbourDrawing(retired, residuals, places, toLngLat)
  expect(plates.map(({ text }) => text).join()).not.toContain(neighbourSigns.silent.sign)
})

test('without neighbours it is said what cannot be concluded', () => {
  expect(lonelySentence(found)).toBeNull()
  const sentence = lonelySentence({ ...found, agreements: [], unread: [] })
  expect(sentence).toContain('P-1 has no neighbour')
  expect(sentence).toContain('P-2 stand within reach but behind a wall')
  expect(sentence).toContain('cannot be concluded; nor that it did not')
})

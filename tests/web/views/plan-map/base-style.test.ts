import { expect, it } from 'vitest'
import { worksKinds } from '#domain/site/vocabulary.ts'
import { palettes } from '../../../../web/ui/palettes.ts'
import { baseStyle } from '../../../../web/views/plan-map/base-style.ts'
import {
  levelNamesLayer,
  namesLayer,
  namesSource,
  worksSource,
} from '../../../../web/views/plan-map/plan-sources.ts'
import { isWorksLayer } from '../../../../web/views/plan-map/works-style.ts'

const style = baseStyle(palettes.paper, { type: 'FeatureCollection', features: [] }, 48, 1)

it('draws every kind of works', () => {
  const drawn = JSON.stringify(
    style.layers.filter((layer) => isWorksLayer(layer.id)).map((layer) => 'filter' in layer && layer.filter),
  )
  for (const kind of worksKinds) expect(drawn).toContain(`"${kind}"`)
})

it('asks no server for tiles, glyphs or sprites', () => {
  expect(style.glyphs).toBeUndefined()
  expect(style.sprite).toBeUndefined()
  expect(Object.values(style.sources).every((source) => source.type === 'geojson')).toBe(true)
})

it('draws a wall as thick as it is from close by', () => {
  const wall = style.layers.find((layer) => layer.id === 'works-wall')
  const width = (wall as unknown as { paint: { 'line-width': unknown[] } }).paint['line-width']
  const at = (zoom: number) => width[width.indexOf(zoom, 3) + 1] as number
  // Web Mercator at 48° N, 512-pixel tiles: 2^20 · 512 pixels round 40 075 016.7 m · cos 48°.
  expect(at(20)).toBeCloseTo((2 ** 20 * 512) / (40_075_016.7 * Math.cos((48 * Math.PI) / 180)), 2)
  expect(at(13)).toBe(3)
})

it('keeps names above the works', () => {
  const ids = style.layers.map((layer) => layer.id)
  expect(ids.indexOf(namesLayer)).toBeGreaterThan(
    Math.max(...ids.map((id, place) => (isWorksLayer(id) ? place : -1))),
  )
  expect(
    style.layers.filter((layer) => 'source' in layer && layer.source === worksSource).length,
  ).toBeGreaterThan(10)
})

it('lets names at a level take their places first, kept off by symbols at a level alone', () => {
  // The map places the uppermost layer first: MapLibre GL JS, `PauseablePlacement`, from the last of the order down.
  const placed = style.layers
    .filter((layer) => 'source' in layer && layer.source === namesSource)
    .toReversed()
  const seenBy = (level: number) =>
    placed.map((layer) => {
      const { filter } = layer as unknown as { filter: [string, unknown, number] }
      expect([filter[1], filter[2]]).toEqual([['get', 'level'], 0])
      return filter[0] === '>' ? level > 0 : level <= 0
    })
  expect(placed.map(({ id }) => id)).toEqual([
    'symbol-room-at-level',
    levelNamesLayer,
    'symbol-room',
    namesLayer,
  ])
  expect(seenBy(2)).toEqual([true, true, false, false])
  expect(seenBy(0)).toEqual([false, false, true, true])
})

it('has no text on a board under the smallest size that the board states, at whatever zoom', () => {
  const board = baseStyle(palettes.paper, { type: 'FeatureCollection', features: [] }, 48, 1.45, 29)
  const sizes = board.layers.flatMap((layer) =>
    layer.type === 'symbol' && layer.layout?.['text-size'] ? [layer.layout['text-size'] as unknown[]] : [],
  )
  expect(sizes.length).toBeGreaterThan(3)
  for (const [kind, , , , low, , high] of sizes) {
    expect(kind).toBe('interpolate')
    expect(low).toBeGreaterThanOrEqual(29)
    expect(high).toBeGreaterThanOrEqual(29)
  }
})

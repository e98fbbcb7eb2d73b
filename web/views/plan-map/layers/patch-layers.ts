import type { Layer } from '@deck.gl/core'
import { PathLayer, TextLayer } from '@deck.gl/layers'
import type { LngLat } from '#domain/geometry/site-grid.ts'
import type { PlanSymbol } from '../../../derived/plan-symbols.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

/** Outline of the area that is reviewed, closed. */
export function patchLayers(area: readonly LngLat[], palette: Palette): Layer[] {
  const [first] = area
  if (!first || area.length < 3) return []
  const ring = [...area, first].map(([longitude, latitude]): [number, number] => [longitude, latitude])
  const path = (name: string, colour: [number, number, number, number], width: number) =>
    new PathLayer<[number, number][]>({
      parameters: { depthCompare: 'always' as const },
      id: `patch-${name}`,
      data: [ring],
      getPath: (line) => line,
      getColor: colour,
      getWidth: width,
      widthUnits: 'pixels',
      updateTriggers: { getColor: palette },
    })
  return [path('halo', toRgba(palette.halo, 220), 6), path('outline', toRgba(palette.accent), 3)]
}

/** Signs of what is picked, above their symbols. */
export function pickedLayers(props: {
  readonly picked: ReadonlyMap<string, string>
  readonly symbols: readonly PlanSymbol[]
  readonly palette: Palette
  readonly sizePixels: number
  readonly scale: number
}): Layer[] {
  const { picked, palette, sizePixels, scale } = props
  return [
    new TextLayer<PlanSymbol>({
      parameters: { depthCompare: 'always' as const },
      id: 'picked',
      data: props.symbols.filter(({ id }) => picked.has(id)),
      getPosition: ({ longitude, latitude }) => [longitude, latitude],
      getText: ({ id }) => picked.get(id) ?? '',
      getSize: 15 * scale,
      fontWeight: 700,
      fontFamily: 'system-ui, sans-serif',
      characterSet: '0123456789, ',
      getColor: toRgba(palette.onAccent),
      getPixelOffset: [0, -sizePixels * 0.75],
      background: true,
      getBackgroundColor: toRgba(palette.accent),
      backgroundPadding: [6, 1],
      updateTriggers: { getText: picked, getPixelOffset: sizePixels, getSize: scale, getColor: palette },
    }),
  ]
}

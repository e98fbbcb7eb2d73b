import type { Layer } from '@deck.gl/core'
import { PathLayer, ScatterplotLayer, TextLayer } from '@deck.gl/layers'
import type { LngLat } from '#domain/geometry/site-grid.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

/** What is planned, where it would stand. */
export interface PlannedMarks {
  /** Corners of an obstruction, closed where it is a box; empty: none. */
  readonly obstruction: readonly LngLat[]
  readonly gateway: { readonly at: LngLat; readonly name: string } | null
}

/** A planned obstruction and gateway, told apart from what stands by their accent and their words. */
export function plannedLayers({ obstruction, gateway }: PlannedMarks, palette: Palette): Layer[] {
  const drawn = { parameters: { depthCompare: 'always' as const } }
  const path = obstruction.map(([longitude, latitude]): [number, number] => [longitude, latitude])
  const names = [
    ...(obstruction[0] ? [{ at: obstruction[0], name: 'planned obstruction' }] : []),
    ...(gateway ? [{ at: gateway.at, name: `${gateway.name}, planned` }] : []),
  ]
  return [
    new PathLayer<[number, number][]>({
      ...drawn,
      id: 'planned-obstruction',
      data: path.length > 1 ? [path] : [],
      getPath: (line) => line,
      getWidth: 4,
      widthUnits: 'pixels',
      getColor: toRgba(palette.accent),
    }),
    new ScatterplotLayer<{ readonly at: LngLat }>({
      ...drawn,
      id: 'planned-gateway',
      data: gateway ? [gateway] : [],
      getPosition: ({ at }) => [at[0], at[1]],
      getRadius: 9,
      radiusUnits: 'pixels',
      getFillColor: toRgba(palette.sheet, 200),
      stroked: true,
      getLineColor: toRgba(palette.accent),
      lineWidthUnits: 'pixels',
      getLineWidth: 3,
    }),
    new TextLayer<{ readonly at: LngLat; readonly name: string }>({
      ...drawn,
      id: 'planned-names',
      data: names,
      getPosition: ({ at }) => [at[0], at[1]],
      getText: ({ name }) => name,
      getSize: 13,
      getColor: toRgba(palette.accent),
      getPixelOffset: [0, -18],
      background: true,
      getBackgroundColor: toRgba(palette.sheet, 225),
      backgroundPadding: [3, 0],
      characterSet: 'auto',
      fontFamily: 'system-ui, sans-serif',
    }),
  ]
}

import type { Layer } from '@deck.gl/core'
import { ScatterplotLayer, TextLayer } from '@deck.gl/layers'
import { formatValue } from '../../../ui/format-value.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'
import { decimalsApart } from '../../marks/value-ticks.ts'
import type { ContourValue } from './contour-values.ts'
import { surfaceTextColour } from './surface-colour.ts'
import type { SurfaceDrawing, SurfaceMark } from './surface-layers.ts'

/** Values of contour lines and figures at places, drawn above symbols and names on a ground of their own. */
export function surfaceValueLayers(props: {
  readonly id: string
  readonly surface: SurfaceDrawing
  readonly values: readonly ContourValue[]
  readonly palette: Palette
  readonly scale: number
  readonly leastTextPixels: number
  readonly sizePixels: number
}): Layer[] {
  const { surface, palette, scale } = props
  const decimals = decimalsApart(surface.lines.map(({ value }) => value))
  const drawn = { parameters: { depthCompare: 'always' as const } }
  const text = {
    ...drawn,
    fontWeight: 600,
    background: true,
    fontFamily: 'system-ui, sans-serif',
    characterSet: '−+0123456789.',
  }
  return [
    new TextLayer<ContourValue>({
      ...text,
      id: `${props.id}-values`,
      data: props.values,
      getPosition: ({ at }) => at,
      getText: ({ value }) => formatValue(value, decimals),
      getSize: Math.max(13 * scale, props.leastTextPixels),
      getColor: ({ value }) => toRgba(surfaceTextColour(surface, value, palette)),
      getBackgroundColor: toRgba(palette.halo, 235),
      backgroundPadding: [3, 0],
      updateTriggers: {
        getText: decimals,
        getColor: [palette, surface.colouring],
        getSize: scale,
      },
    }),
    new ScatterplotLayer<SurfaceMark>({
      ...drawn,
      id: `${props.id}-mark-rings`,
      data: surface.marks,
      getPosition: ({ at }) => at,
      getRadius: props.sizePixels * 0.56,
      radiusUnits: 'pixels',
      filled: false,
      stroked: true,
      getLineColor: toRgba(palette.ink),
      lineWidthUnits: 'pixels',
      getLineWidth: ({ faint }) => (faint ? 1 : 2.5),
      updateTriggers: { getLineColor: palette, getRadius: props.sizePixels },
    }),
    new TextLayer<SurfaceMark>({
      ...text,
      id: `${props.id}-marks`,
      data: surface.marks,
      getPosition: ({ at }) => at,
      getText: (mark) => mark.text,
      getSize: Math.max(12 * scale, props.leastTextPixels),
      getTextAnchor: 'start',
      getPixelOffset: [props.sizePixels * 0.62, 0],
      getColor: toRgba(palette.ink),
      getBackgroundColor: toRgba(palette.halo, 235),
      backgroundPadding: [2, 0],
      updateTriggers: { getColor: palette, getPixelOffset: props.sizePixels, getSize: scale },
    }),
  ]
}

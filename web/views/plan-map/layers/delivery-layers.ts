import type { Layer } from '@deck.gl/core'
import { PathLayer, PolygonLayer } from '@deck.gl/layers'
import type { DeliveryDrawing } from '../../../derived/radio/delivery-drawing.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

type Cell = DeliveryDrawing['cells'][number]

/** Predicted delivery in one ink, more of it where less arrives, with a stroke over cells that the fit leaves open. */
export function deliveryLayers(props: {
  readonly delivery: DeliveryDrawing
  readonly palette: Palette
  readonly beforeId: string
}): Layer[] {
  const { delivery, palette } = props
  const drawn = { beforeId: props.beforeId, parameters: { depthCompare: 'always' as const } }
  return [
    new PolygonLayer<Cell>({
      ...drawn,
      id: 'delivery-cells',
      data: delivery.cells,
      getPolygon: ({ ring }) => ring as [number, number][],
      getFillColor: ({ darkness }) => toRgba(palette.ink, Math.round(255 * darkness)),
      stroked: false,
      updateTriggers: { getFillColor: palette },
    }),
    new PathLayer<DeliveryDrawing['hatch'][number]>({
      ...drawn,
      id: 'delivery-hatch',
      data: delivery.hatch,
      getPath: (line) => line as [number, number][],
      getWidth: 1.6,
      widthUnits: 'pixels',
      getColor: toRgba(palette.accent),
      updateTriggers: { getColor: palette },
    }),
  ]
}

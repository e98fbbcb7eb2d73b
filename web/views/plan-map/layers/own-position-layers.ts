import type { Layer } from '@deck.gl/core'
import { ScatterplotLayer } from '@deck.gl/layers'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

/** Where the person with the device stands, and how far the device may be wrong. */
export interface OwnMark {
  readonly longitude: number
  readonly latitude: number
  readonly accuracyMetres: number
}

/** A dot where one stands, in a ring as wide as the stated accuracy on the ground. */
export function ownPositionLayers(props: {
  readonly mark: OwnMark
  readonly palette: Palette
  readonly beforeId: string
}): Layer[] {
  const drawn = { beforeId: props.beforeId, parameters: { depthCompare: 'always' as const } }
  const place = (mark: OwnMark): [number, number] => [mark.longitude, mark.latitude]
  return [
    new ScatterplotLayer<OwnMark>({
      ...drawn,
      id: 'own-accuracy',
      data: [props.mark],
      getPosition: place,
      radiusUnits: 'meters',
      getRadius: (mark) => mark.accuracyMetres,
      radiusMinPixels: 14,
      getFillColor: toRgba(props.palette.accent, 30),
      stroked: true,
      getLineColor: toRgba(props.palette.accent),
      lineWidthUnits: 'pixels',
      getLineWidth: 2,
    }),
    new ScatterplotLayer<OwnMark>({
      ...drawn,
      id: 'own-position',
      data: [props.mark],
      getPosition: place,
      radiusUnits: 'pixels',
      getRadius: 7,
      getFillColor: toRgba(props.palette.accent),
      stroked: true,
      getLineColor: toRgba(props.palette.sheet),
      lineWidthUnits: 'pixels',
      getLineWidth: 3,
    }),
  ]
}

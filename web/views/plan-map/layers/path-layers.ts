import type { Position } from '@deck.gl/core'
import { PathLayer } from '@deck.gl/layers'
import { toRgba } from '../../../ui/palettes.ts'

/** Makes layers of lines of one colour and width (CSS pixels), named after what they belong to. */
export const pathLayers =
  (of: string, drawn: { readonly beforeId: string; readonly parameters: object }) =>
  (name: string, data: readonly (readonly Position[])[], colour: string, width: number) =>
    new PathLayer<readonly Position[]>({
      ...drawn,
      id: `${of}-${name}`,
      data,
      getPath: (one) => one as Position[],
      getColor: toRgba(colour),
      getWidth: width,
      widthUnits: 'pixels',
      updateTriggers: { getColor: colour },
    })

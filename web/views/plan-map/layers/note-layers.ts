import type { Layer } from '@deck.gl/core'
import { TextLayer } from '@deck.gl/layers'
import type { NoteMark } from '../../../derived/note-marks.ts'
import { type Palette, toRgba } from '../../../ui/palettes.ts'

/** Notes and damage reports: a small framed sign to the lower right of their place, beside the symbol that stands there. */
export function noteLayers(props: {
  readonly marks: readonly NoteMark[]
  readonly palette: Palette
  readonly sizePixels: number
  readonly beforeId: string
}): Layer[] {
  const { marks, palette, sizePixels } = props
  const offset = signAside(sizePixels)
  const drawn = { beforeId: props.beforeId, parameters: { depthCompare: 'always' as const } }
  return [
    new TextLayer<NoteMark>({
      ...drawn,
      id: 'notes',
      data: marks,
      getPosition: ({ longitude, latitude }) => [longitude, latitude],
      getText: ({ sign }) => sign,
      getSize: 14,
      fontWeight: 700,
      getColor: toRgba(palette.ink),
      getPixelOffset: offset,
      background: true,
      getBackgroundColor: toRgba(palette.sheet),
      backgroundPadding: [5, 1],
      getBorderColor: toRgba(palette.ink),
      getBorderWidth: 1.5,
      fontFamily: 'system-ui, sans-serif',
      updateTriggers: { getPixelOffset: sizePixels },
    }),
  ]
}

/** Where a sign stands, pixels right of and below its place. */
export const signAside = (sizePixels: number): [number, number] => [sizePixels * 0.55, sizePixels * 0.55]
